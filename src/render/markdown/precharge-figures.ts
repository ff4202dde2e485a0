/** The figures of the rise in the order and words of a report. */
export const prechargeFigures = [
  ['steadyRatio', 'What the link gets to in the end, of the open-circuit voltage'],
  ['timeToThreshold', 'Time to the threshold'],
  ['timeConstant', 'Time constant'],
  ['peakCurrent', 'Highest pre-charge current'],
  ['resistorEnergy', 'Energy in the resistor up to the threshold'],
  ['resistorEnergyTotal', 'Energy in the resistor if left on'],
  ['resistorPeakPower', 'Highest power in the resistor'],
  ['resistorPeakTemperature', 'Highest temperature of the resistor'],
  ['currentAtSecondClosure', 'Current as the last relay closes'],
] as const;
