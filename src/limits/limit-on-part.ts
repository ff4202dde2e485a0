import { type BoundedPart, RANGES } from './bounded-part.js';
import type { Demand } from './demand.js';
import { type BoundOutcome, findBound } from './find-bound.js';
import type { Judgement } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { recordOf } from './record-of.js';

/** A demand this little above 1 is the one that made the bound. */
const TIE = 1e-10;

export interface PartQuestion {
  readonly part: BoundedPart;
  /** Of the circuit as it is. */
  readonly judgement: Judgement;
  /** All that must be kept, each by itself. */
  readonly demands: readonly Demand[];
  /** A first value to try, from what is demanded at the worst end of the present range. */
  readonly guess?: (worst: number) => number;
  /** The formula with the numbers put in. */
  readonly basis: (value: number) => string;
}

/** The bound on one part, the nominal at its own tolerance that keeps it, and how the present one stands to it. */
export function limitOnPart(meta: LimitMeta, question: PartQuestion): OneLimit {
  const { part, judgement, basis } = question;
  const outcome = judgement.notComputable ? undefined : solve(meta, question);
  const value = outcome?.kind === 'bound' ? outcome.value : null;
  return recordOf({
    meta,
    element: part.id,
    outcome: outcome?.kind ?? 'not-stated',
    value,
    nominal: value === null ? null : value / (meta.bound === 'max' ? 1 + part.upward : 1 - part.downward),
    present: part.present,
    judgement,
    basis: value === null ? meta.formula : basis(value),
  });
}

/** Where the bound on one part cannot be computed for want of a field; `violated`: it is not kept whatever the field says. */
export function limitNotStated(
  meta: LimitMeta,
  part: BoundedPart,
  missing: readonly string[],
  violated = false,
): OneLimit {
  return recordOf({
    meta,
    element: part.id,
    outcome: 'not-stated',
    value: null,
    nominal: null,
    present: part.present,
    judgement: { satisfied: violated ? false : null, missing, notComputable: true },
    basis: meta.formula,
  });
}

/** The bound that keeps every demand: found for the largest one, then tried on the others. */
function solve(meta: LimitMeta, { part, demands, guess }: PartQuestion): BoundOutcome {
  const { lowest, highest } = RANGES[part.unit];
  const worst = part.present * (meta.bound === 'max' ? 1 + part.upward : 1 - part.downward);
  // A part of no resistance, or one that may have none, is no place to start from.
  const known = worst >= lowest && worst <= highest;
  const start = known ? worst : Math.sqrt(lowest * highest);
  const search = (demand: Demand, value: number, there: number): BoundOutcome => {
    const quick = demand.atCorner ?? demand.at;
    const common = {
      bound: meta.bound,
      lowest,
      highest,
      ...(known && guess !== undefined ? { guess: guess(worst) } : {}),
    };
    const found = findBound({ ...common, demand: quick, start: { value, demand: there } });
    if (found.kind !== 'bound' || demand.atCorner === undefined) return found;
    const confirmed = demand.at(found.value);
    if (Math.abs(confirmed - 1) <= TIE) return found;
    return findBound({ ...common, demand: demand.at, start: { value: found.value, demand: confirmed } });
  };
  let outcome: BoundOutcome = { kind: 'no-value-hurts' };
  for (const demand of [...demands].sort((a, b) => (a.present === b.present ? 0 : b.present - a.present))) {
    if (outcome.kind === 'no-value-helps') break;
    if (outcome.kind === 'no-value-hurts') {
      // Within its range a part may be worst elsewhere than at the end, where that is searched.
      const proved = known && demand.atCorner === undefined;
      outcome = search(demand, start, proved ? demand.present : (demand.atCorner ?? demand.at)(start));
      continue;
    }
    const there = (demand.atCorner ?? demand.at)(outcome.value);
    if (there > 1 + TIE) outcome = search(demand, outcome.value, there);
  }
  return outcome;
}
