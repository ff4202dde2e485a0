import { type BoundedPart, RANGES, worstOf } from './bounded-part.js';
import { BoundTooCostly } from './bound-too-costly.js';
import type { Demand } from './demand.js';
import { type BoundOutcome, findBound } from './find-bound.js';

/** A demand this little above 1 is the one that made the bound. */
const TIE = 1e-10;

/** A demand at one corner so far below 1 that nothing else makes it more. */
const SURE = 0.9;

export interface SolvedBound {
  readonly outcome: BoundOutcome | { readonly kind: 'too-costly' };
  /** The demand that closes it, or that is nearest to where nothing does. */
  readonly by?: Demand | undefined;
}

/** The bound on one part that keeps every demand: found for the largest one, then tried on the others. */
export function solveBound(bound: 'min' | 'max', part: BoundedPart, demands: readonly Demand[]): SolvedBound {
  try {
    return solved(bound, part, demands);
  } catch (error) {
    if (error instanceof BoundTooCostly) return { outcome: { kind: 'too-costly' } };
    throw error;
  }
}

function solved(bound: 'min' | 'max', part: BoundedPart, demands: readonly Demand[]): SolvedBound {
  const { lowest, highest } = RANGES[part.unit];
  const worst = worstOf(part, bound);
  // A part of no resistance, or one that may have none, is no place to start from.
  const known = worst >= lowest && worst <= highest;
  const start = known ? worst : Math.sqrt(lowest * highest);
  const search = (demand: Demand, value: number, there: number): BoundOutcome => {
    const common = { bound, model: known ? demand.model : undefined, lowest, highest };
    const others = (from: number) => (demand.known?.() ?? []).filter((each) => each.value !== from);
    const slow = (from: number, demanded: number): BoundOutcome =>
      findBound({ ...common, demand: demand.at, start: { value: from, demand: demanded }, known: others(from) });
    if (demand.atCorner === undefined) return slow(value, there);
    const found = findBound({ ...common, demand: demand.atCorner, start: { value, demand: there } });
    if (found.kind !== 'bound') return found;
    const confirmed = demand.at(found.value);
    return Math.abs(confirmed - 1) <= TIE ? found : slow(found.value, confirmed);
  };
  let outcome: BoundOutcome = { kind: 'no-value-hurts' };
  let by: Demand | undefined;
  for (const demand of [...demands].sort((a, b) => (a.present === b.present ? 0 : b.present - a.present))) {
    if (outcome.kind === 'no-value-helps') break;
    if (outcome.kind === 'no-value-hurts') {
      // Within its range a part may be worst elsewhere than at the end, where that is searched.
      const proved = known && demand.atCorner === undefined;
      by = by ?? demand;
      outcome = search(demand, start, proved ? demand.present : (demand.atCorner ?? demand.at)(start));
      if (outcome.kind !== 'no-value-hurts') by = demand;
      continue;
    }
    const quick = demand.atCorner?.(outcome.value);
    // Beyond what a corner shows a search may have left a gap.
    const there = quick !== undefined && quick < SURE ? quick : demand.at(outcome.value);
    if (there <= 1 + TIE) continue;
    outcome = search(demand, outcome.value, there);
    by = demand;
  }
  return { outcome, by };
}
