import type { Rise, SingleMove } from '../facts/facts.js';
import { figureAnswer, timeFigureAnswer } from './figure-answer.js';
import type { Report } from './report.js';
import { sensitivities } from './sensitivities.js';

/**
 * The figures of the rise as a report states them.
 * @param moves the same rise with each part moved alone, where figures shall say which parts move them most
 */
export function prechargeAnswer(rise: Rise, moves?: readonly SingleMove<Rise>[]): Report['precharge'] {
  const figures = figureAnswers(rise);
  if (moves === undefined) return figures;
  const named = Object.entries(figures).map(([name, figure]) => {
    if (typeof figure !== 'object') return [name, figure] as const;
    const value = (each: Rise): number | null => each[name as FigureName].nominal;
    const values = moves.map(({ element, low, high }) => ({ element, low: value(low), high: value(high) }));
    return [name, { ...figure, sensitivities: sensitivities(figure.nominal, values) }] as const;
  });
  return Object.fromEntries(named) as Report['precharge'];
}

type FigureName = Exclude<keyof Report['precharge'], 'resistor'>;

function figureAnswers(rise: Rise): Report['precharge'] {
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
