import type { Figure, TimeFigure } from '../../src/facts/figure.js';

/** A figure without spread, or with the parts given. `stated` follows min and max unless given. */
export function figure(nominal: number | null, parts: Partial<Figure> = {}): Figure {
  const min = parts.min === undefined ? nominal : parts.min;
  const max = parts.max === undefined ? nominal : parts.max;
  return { nominal, min, max, stated: { min, max }, bare: [], bound: 'proved', at: { min: {}, max: {} }, ...parts };
}

export function timeFigure(nominal: number | null, parts: Partial<TimeFigure> = {}): TimeFigure {
  const reached = parts.reached ?? (nominal === null ? 'never' : parts.max === null ? 'sometimes' : 'always');
  return { ...figure(nominal, parts), reached, statedReached: parts.statedReached ?? reached };
}
