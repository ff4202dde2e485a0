import type { SingleMove } from '../facts/facts.js';
import type { FigureAnswer } from './report.js';

type Sensitivity = NonNullable<FigureAnswer['sensitivities']>[number];

/** Parts named of one figure at most. */
const MOST = 5;

/** Relative to the figure: less than this is rounding. */
const NOTHING = 1e-9;

/**
 * Which parts move a figure most, each moved alone from its nominal value to the ends of its range: changes in the figure's
 * own unit, the largest first (what leaves the figure without a number before all others), parts without effect left out.
 *
 * @param nominal null: there is no number to move away from, and nothing is named
 * @param moves the figure's values; null or infinite where it has none
 */
export function sensitivities(nominal: number | null, moves: readonly SingleMove<number | null>[]): Sensitivity[] {
  if (nominal === null) return [];
  const change = (value: number | null): number => (value === null ? Infinity : value - nominal);
  return moves
    .map(({ element, low, high }) => ({ element, low: change(low), high: change(high) }))
    .map((each) => ({ ...each, most: Math.max(Math.abs(each.low), Math.abs(each.high)) }))
    .filter(({ most }) => most > NOTHING * Math.abs(nominal))
    .sort((a, b) => compare(b.most, a.most) || (a.element < b.element ? -1 : 1))
    .slice(0, MOST)
    .map(({ element, low, high }) => ({ element, low: finite(low), high: finite(high) }));
}

function compare(a: number, b: number): number {
  return a === b ? 0 : a - b;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
