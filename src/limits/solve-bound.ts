import { type BoundedPart, RANGES, worstOf } from './bounded-part.js';
import { BoundTooCostly } from './bound-too-costly.js';
import type { Demand } from './demand.js';
import { type BoundOutcome, type BoundSearch, findBound } from './find-bound.js';

/** A demand this little above 1 is the one that made the bound. */
const TIE = 1e-10;

/** A demand at one corner so far below 1 that nothing else makes it more. */
const SURE = 0.9;
/** A demand of that much next to a place where it holds comes of a jump: a voltage that comes back up to its limit, say. */
const JUMP = 1.001;
/** Corners gone to at most. */
const MOST_TURNS = 6;
/** Relative; a bound that moves by no more stays where it is. */
const JUST = 1e-10;

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
  const commonOf = ({ model }: Demand): Common => ({ bound, model: known ? model : undefined, lowest, highest });
  const slow = (demand: Demand, from: number, demanded: number): BoundOutcome => {
    // The present value has been judged, and with the part's own range where that counts.
    const present = demand.ranged === true && known ? [{ value: worst, demand: demand.present }] : [];
    const others = [...present, ...(demand.known?.() ?? [])].filter((each) => each.value !== from);
    const at = { value: from, demand: demanded };
    return findBound({ ...commonOf(demand), demand: demand.at, start: at, known: others });
  };
  const boundAt = (demand: Demand, corner: (value: number) => number): BoundOutcome =>
    findBound({ ...commonOf(demand), demand: corner, start: { value: start, demand: corner(start) } });
  const cornerBound = (demand: Demand): BoundOutcome | undefined => demand.atCorner && boundAt(demand, demand.atCorner);
  /** Where the present corner knows no bound, the same at the corner that is worst as far out as the part can be. */
  const farBound = (demand: Demand, outcome: BoundOutcome): BoundOutcome => {
    const hurts = outcome.kind === 'no-value-hurts';
    const end = hurts === (bound === 'max') ? highest : lowest;
    if (demand.at(end) > 1 !== hurts) return outcome;
    const corner = demand.cornerFrom?.(end);
    return corner === undefined ? outcome : boundAt(demand, corner);
  };
  const search = (demand: Demand, value: number, there: () => number): BoundOutcome => {
    const present = demand === tightest?.demand ? tightest.corner : cornerBound(demand);
    if (present === undefined) return slow(demand, value, there());
    const corner = present.kind === 'bound' ? present : farBound(demand, present);
    if (corner.kind !== 'bound') return corner;
    const { settled, at, demanded } = fromCornerToCorner(demand, commonOf(demand), corner.value);
    return settled ? { kind: 'bound', value: at } : slow(demand, at, demanded);
  };
  const gravest = [...demands].sort((a, b) => (a.present === b.present ? 0 : b.present - a.present));
  const tightest = tightestOf(gravest, cornerBound);
  // What is searched for is searched for at the tightest, as one corner tells it, and only tried there of the others.
  const ordered = [...gravest].sort((a, b) => Number(b === tightest?.demand) - Number(a === tightest?.demand));
  let outcome: BoundOutcome = { kind: 'no-value-hurts' };
  let by: Demand | undefined;
  for (const demand of ordered) {
    if (outcome.kind === 'no-value-helps') break;
    if (outcome.kind === 'no-value-hurts') {
      // Within its range a part may be worst elsewhere than at the end, where that is searched.
      const proved = known && demand.atCorner === undefined;
      by = by ?? demand;
      outcome = search(demand, start, () => (proved ? demand.present : demand.at(start)));
      if (outcome.kind !== 'no-value-hurts') by = demand;
      continue;
    }
    const quick = demand.atCorner?.(outcome.value);
    // Beyond what a corner shows a search may have left a gap.
    const there = quick !== undefined && quick < SURE ? quick : demand.at(outcome.value);
    if (there <= 1 + TIE) continue;
    outcome = search(demand, outcome.value, () => there);
    by = demand;
  }
  return { outcome, by };
}

/** Of the demands that a search is behind, that whose bound with all others where they are worst at present is the tightest. */
function tightestOf(
  demands: readonly Demand[],
  boundOf: (demand: Demand) => BoundOutcome | undefined,
): { readonly demand: Demand; readonly corner: BoundOutcome } | undefined {
  let tightest: { readonly demand: Demand; readonly corner: BoundOutcome } | undefined;
  for (const demand of demands) {
    const known = tightest?.corner;
    if (known?.kind === 'no-value-helps') break;
    if (known?.kind === 'bound' && !((demand.atCorner?.(known.value) ?? 0) > 1)) continue;
    const corner = boundOf(demand);
    if (corner !== undefined) tightest = { demand, corner };
  }
  return tightest;
}

type Common = Omit<BoundSearch, 'demand' | 'start'>;

/**
 * From a bound at one corner to that where the search at it finds the worst, as long as that moves the bound: a search that ends on a
 * jump, or whose margin goes with it, is asked for a few times and not at every halving.
 */
function fromCornerToCorner(
  demand: Demand,
  common: Common,
  from: number,
): { readonly settled: boolean; readonly at: number; readonly demanded: number } {
  let at = from;
  let corner = demand.atCorner;
  for (let turn = 0; ; turn += 1) {
    const demanded = demand.at(at);
    const here = { at, demanded };
    if (Math.abs(demanded - 1) <= TIE) return { ...here, settled: true };
    const beyond = common.bound === 'max' ? at * (1 + JUST) : at / (1 + JUST);
    if (demanded < 1 && (corner?.(beyond) ?? 0) > JUMP && demand.at(beyond) > 1) return { ...here, settled: true };
    corner = demand.cornerFrom?.(at);
    const there = corner?.(at) ?? 0;
    if (turn === MOST_TURNS || corner === undefined) return { ...here, settled: false };
    if (!(there > 0 && Number.isFinite(there) && Number.isFinite(demanded))) return { ...here, settled: false };
    // What a search is given to have missed goes about in proportion.
    const scale = demanded / there;
    const scaled = (value: number): number => scale * (corner?.(value) ?? 0);
    const found = findBound({ ...common, demand: scaled, start: { value: at, demand: demanded } });
    if (found.kind !== 'bound') return { ...here, settled: false };
    at = found.value;
  }
}
