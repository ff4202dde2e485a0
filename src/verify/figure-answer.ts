import type { Figure, TimeFigure } from '../facts/figure.js';
import type { FigureAnswer, TimeFigureAnswer } from './report.js';

/** A figure as answers state it. */
export function figureAnswer(figure: Figure, unit: string): FigureAnswer {
  const { nominal, min, max, bound, gap, at, reason, missing } = figure;
  return {
    unit,
    nominal,
    min,
    max,
    bound,
    ...(gap === undefined ? {} : { gap: { min: gap.min, max: gap.max } }),
    at: { min: at.min, max: at.max },
    ...(reason === undefined ? {} : { reason }),
    ...(missing === undefined ? {} : { missing: [...missing] }),
  };
}

/** A duration as answers state it, in s. */
export function timeFigureAnswer(figure: TimeFigure): TimeFigureAnswer {
  return { ...figureAnswer(figure, 's'), reached: figure.reached };
}
