import { CircuitFault } from '../circuit/fault.js';
import type { Facts, VariedFacts } from '../facts/facts.js';
import type { Figure, TimeFigure } from '../facts/figure.js';
import { TooMuchWork } from '../transient/work-budget.js';
import type { BoundedPart } from './bounded-part.js';
import { BoundTooCostly, MOST_FOR_BOUND, MOST_WITH_BOUNDS } from './bound-too-costly.js';
import { foundOf, judgedEnds } from './judgement.js';
import { seenFigures } from './seen-figures.js';

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
  /** Likewise with the others where the search at a value found the worst; undefined where nothing was searched there. */
  readonly cornerFrom?: (value: number) => ((value: number) => number) | undefined;
  /** True where the figure was searched for and keeps the limit only with a margin for what the search may have missed. */
  readonly keepsMargin?: boolean;
  /** True where `at` gives the part its own range, ending at the value: what bounds a search depends on that, too. */
  readonly ranged?: boolean;
  /** Where the others stand when it is worst: element id → share of its range, −1 … 1. */
  readonly worst?: Readonly<Record<string, number>>;
  /** Values at which `at` has been computed already. */
  readonly known?: () => ReadonlyArray<{ readonly value: number; readonly demand: number }>;
  /** A formula that follows the demand nearly: see `BoundSearch`. */
  readonly model?: ((value: number) => number) | undefined;
}

type Figures = Pick<Facts, 'rise' | 'falls'>;

export interface DemandQuestion<F extends Figure> {
  readonly facts: Facts;
  readonly part: BoundedPart;
  /** Where the worst value of the figure lies. */
  readonly end: 'min' | 'max';
  /** undefined: the figure is not there, and nothing is demanded. Limits that give the same function share what it gave. */
  readonly read: (figures: Figures) => F | undefined;
  readonly measure: (figure: F) => number;
  /** The side of the bound that is looked for. */
  readonly bound: 'min' | 'max';
  readonly model?: ((value: number) => number) | undefined;
}

/** The demand that one figure makes, as it depends on one part. */
export function demandOn<F extends Figure>({
  facts,
  part,
  end,
  read,
  measure,
  bound,
  model,
}: DemandQuestion<F>): Demand {
  const present = read(facts);
  if (present === undefined) return constantDemand(0);
  // What bounds a search that does not end depends on the part's own range too, and the rule sees it with that; a search that
  // nothing bounds is judged by what it found at both ends.
  const searched = present.bound === 'searched';
  const boundless = searched && (present.gap?.[end] ?? null) === null;
  const ranged = searched && present.gap?.[end] !== 0;
  const only = boundless ? undefined : end;
  let spent = 0;
  const figureAt = (value: number, corner?: VariedFacts): F | 'fault' | undefined => {
    if (spent > MOST_FOR_BOUND || facts.statesSolved > MOST_WITH_BOUNDS) throw new BoundTooCostly();
    const before = facts.statesSolved;
    try {
      if (corner !== undefined) return read(corner.vary(part.id, value, end));
      if (ranged) return read(facts.vary(part.id, rangeAt(part, value, bound), only));
      return read(variedAt(facts, part.id, value, only));
    } catch (error) {
      if (error instanceof CircuitFault && !(error instanceof TooMuchWork)) return 'fault';
      throw error;
    } finally {
      spent += facts.statesSolved - before;
    }
  };
  // A load that never settles at this value, say: what cannot be computed cannot be said to hold.
  const sizeOf = (figure: F | 'fault' | undefined): number =>
    figure === undefined ? 0 : figure === 'fault' ? Number.POSITIVE_INFINITY : measure(figure);
  const seen = seenFigures(facts, read, `${part.id} ${end}`) as Map<number, F | 'fault' | undefined>;
  const cornerOf = (figure: F): ((value: number) => number) => {
    let corner: VariedFacts | undefined;
    return (value) => {
      corner ??= facts.at(figure.at[end]);
      return sizeOf(figureAt(value, corner));
    };
  };
  return {
    present: measure(present),
    worst: present.at[end],
    ranged,
    keepsMargin: judgedEnds(present)[end] !== foundOf(present)[end],
    at: (value) => {
      const figure = seen.has(value) ? seen.get(value) : figureAt(value);
      seen.set(value, figure);
      return sizeOf(figure);
    },
    known: () => [...seen].map(([value, figure]) => ({ value, demand: sizeOf(figure) })),
    model,
    ...(present.bound === 'proved'
      ? {}
      : {
          atCorner: cornerOf(present),
          cornerFrom: (value: number) => {
            const figure = seen.get(value);
            return figure === undefined || figure === 'fault' ? undefined : cornerOf(figure);
          },
        }),
  };
}

/** The part's range at the nominal whose worst true value that is. */
function rangeAt({ upward, downward }: BoundedPart, value: number, bound: 'min' | 'max') {
  const nominal = value / (bound === 'max' ? 1 + upward : 1 - downward);
  return { nominal, low: nominal * (1 - downward), high: nominal * (1 + upward) };
}

/** Several figures of one varied circuit share what is computed of it. */
function variedAt(facts: Facts, id: string, value: number, only: 'min' | 'max' | undefined): Figures {
  const known = seenFigures(facts, 'varied', `${id} ${only ?? 'both'}`) as Map<number, Figures>;
  const varied = known.get(value) ?? facts.vary(id, value, only);
  known.set(value, varied);
  return varied;
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
  return (figure) => {
    const worst = judgedEnds(figure).min ?? 0;
    if (worst >= 1) return 0;
    return worst <= 0 || level >= 1 ? Number.POSITIVE_INFINITY : (1 / worst - 1) / (1 / level - 1);
  };
}

/** A current, power or the like that must stay at or below a level. */
export function sizeDemand(level: number): (figure: Figure) => number {
  return (figure) => {
    const { max } = judgedEnds(figure);
    return max === null || level <= 0 ? Number.POSITIVE_INFINITY : max / level;
  };
}

/** A duration that must stay below a limit; one that never ends is longer than any. */
export function timeDemand(limit: number): (time: TimeFigure) => number {
  return (time) => {
    const { max } = judgedEnds(time);
    return time.reached === 'always' && max !== null ? max / limit : Number.POSITIVE_INFINITY;
  };
}
