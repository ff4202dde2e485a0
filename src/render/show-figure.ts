import type { FigureAnswer, TimeFigureAnswer } from '../verify/report.js';
import { showQuantity } from './show-quantity.js';

const REASONS: ReadonlyMap<string, string> = new Map([
  ['not-stated', 'not stated'],
  ['no-path', 'no path'],
  ['ideal-loop', 'no resistance stated'],
  ['no-state-holds', 'a load switches without end'],
]);

type End = 'nominal' | 'min' | 'max';

/** Share of a bound from which on it is worth telling that less was found. */
const APART = 0.01;

/**
 * One end of a figure in words: the number with its unit, what was found beside it where the end is a bound well beyond that, or why
 * there is none: `never` for what does not happen, `never ends` for an energy that keeps growing, the reason otherwise.
 */
export function showFigure(figure: FigureAnswer | TimeFigureAnswer, end: End): string {
  const value = figure[end];
  if (value !== null) return showQuantity(value, figure.unit) + foundBeside(figure, end, value);
  if (figure.reason === 'never') return figure.unit === 'J' ? 'never ends' : 'never';
  if (figure.reason !== undefined) return REASONS.get(figure.reason) ?? figure.reason;
  return 'reached' in figure ? 'never' : 'without limit';
}

function foundBeside({ gap, unit }: FigureAnswer | TimeFigureAnswer, end: End, value: number): string {
  const beyond = end === 'nominal' ? 0 : (gap?.[end] ?? 0);
  if (!(beyond > APART * Math.abs(value))) return '';
  return end === 'max'
    ? ` at most (${showQuantity(value - beyond, unit)} found)`
    : ` at least (${showQuantity(value + beyond, unit)} found)`;
}
