import type { Rise } from '../facts/facts.js';
import { figureAnswer, timeFigureAnswer } from './figure-answer.js';
import type { Report } from './report.js';

/** The figures of the rise as a report states them. */
export function prechargeAnswer(rise: Rise): Report['precharge'] {
  return {
    ...(rise.resistor === undefined ? {} : { resistor: rise.resistor }),
    steadyRatio: figureAnswer(rise.steadyRatio, ''),
    timeToThreshold: timeFigureAnswer(rise.timeToThreshold),
    timeConstant: figureAnswer(rise.timeConstant, 's'),
    peakCurrent: figureAnswer(rise.peakCurrent, 'A'),
    resistorEnergy: figureAnswer(rise.resistorEnergy, 'J'),
    resistorEnergyTotal: figureAnswer(rise.resistorEnergyTotal, 'J'),
    resistorPeakPower: figureAnswer(rise.resistorPeakPower, 'W'),
    resistorPeakTemperature: figureAnswer(rise.resistorPeakTemperature, '°C'),
    currentAtSecondClosure: figureAnswer(rise.currentAtSecondClosure, 'A'),
  };
}
