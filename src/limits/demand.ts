import { CircuitFault } from '../circuit/fault.js';
import type { Facts, Fall, Rise } from '../facts/facts.js';
import type { Figure, TimeFigure } from '../facts/figure.js';
import type { BoundedPart } from './bounded-part.js';
import { cornerFacts } from './corner-facts.js';

/**
 * How much of an allowance a figure takes up at worst, as a function of one part's value: 1 at the limit, less where it is
 * kept, Infinity without bound.
 */
export interface Demand {
  /** Of the circuit as it is, the part anywhere in its range. */
  readonly present: number;
  /** With the part at exactly the value, all others anywhere in their ranges. */
  readonly at: (value: number) => number;
  /**
   * The same with the others where they make the present figure worst: one evaluation in place of a search over their ranges,
   * to be confirmed by `at`. Absent where the worst place is proved, so that no search is made.
   */
  readonly atCorner?: (value: number) => number;
}

export interface DemandQuestion<F extends Figure> {
  readonly facts: Facts;
  readonly part: BoundedPart;
  /** Where the worst value of the figure lies. */
  readonly end: 'min' | 'max';
  /** undefined: the figure is not there, and nothing is demanded. */
  readonly read: (figures: { readonly rise: Rise; readonly falls: readonly Fall[] }) => F | undefined;
  readonly measure: (figure: F) => number;
}

/** The demand that one figure makes, as it depends on one part. */
export function demandOn<F extends Figure>({ facts, part, end, read, measure }: DemandQuestion<F>): Demand {
  const present = read(facts);
  if (present === undefined) return constantDemand(0);
  const seen = new Map<number, number>();
  const of = (source: Facts, value: number): number => {
    try {
      const figure = read(source.vary(part.id, value));
      return figure === undefined ? 0 : measure(figure);
    } catch (error) {
      // A load that never settles at this value, say: what cannot be computed cannot be said to hold.
      if (error instanceof CircuitFault) return Number.POSITIVE_INFINITY;
      throw error;
    }
  };
  return {
    present: measure(present),
    at: (value) => {
      const demand = seen.get(value) ?? of(facts, value);
      seen.set(value, demand);
      return demand;
    },
    ...(present.bound === 'proved' ? {} : { atCorner: (value: number) => of(cornerFacts(facts, present, end), value) }),
  };
}

/** A demand that the part has no part in. */
export function constantDemand(present: number): Demand {
  return { present, at: () => present };
}

/**
 * A ratio s that must stay above p: (1/s − 1)/(1/p − 1), in proportion to the series resistance of a divider, whose
 * 1/s − 1 is R/L.
 */
export function ratioDemand(level: number): (figure: Figure) => number {
  return ({ min }) => {
    const worst = min ?? 0;
    if (worst >= 1) return 0;
    return worst <= 0 || level >= 1 ? Number.POSITIVE_INFINITY : (1 / worst - 1) / (1 / level - 1);
  };
}

/** A current, power or the like that must stay at or below a level. */
export function sizeDemand(level: number): (figure: Figure) => number {
  return ({ max }) => (max === null || level <= 0 ? Number.POSITIVE_INFINITY : max / level);
}

/** A duration that must stay below a limit; one that never ends is longer than any. */
export function timeDemand(limit: number): (time: TimeFigure) => number {
  return ({ reached, max }) => (reached === 'always' && max !== null ? max / limit : Number.POSITIVE_INFINITY);
}
