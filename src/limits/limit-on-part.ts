import type { BoundedPart } from './bounded-part.js';
import type { Demand } from './demand.js';
import type { Judgement } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { recordOf } from './record-of.js';
import { solveBound } from './solve-bound.js';

export interface PartQuestion {
  readonly part: BoundedPart;
  /** Of the circuit as it is. */
  readonly judgement: Judgement;
  /** All that must be kept, each by itself. */
  readonly demands: readonly Demand[];
  /** The formula with the numbers put in; `by`: which of the demands makes the bound. */
  readonly basis: (value: number, by?: Demand) => string;
}

/** The bound on one part, the nominal at its own tolerance that keeps it, and how the present one stands to it. */
export function limitOnPart(meta: LimitMeta, question: PartQuestion): OneLimit {
  const { part, judgement, basis } = question;
  const { outcome, by } = judgement.notComputable ? {} : solveBound(meta.bound, part, question.demands);
  const value = outcome?.kind === 'bound' ? outcome.value : null;
  return recordOf({
    meta,
    element: part.id,
    outcome: outcome?.kind ?? 'not-stated',
    value,
    nominal: value === null ? null : value / (meta.bound === 'max' ? 1 + part.upward : 1 - part.downward),
    present: part.present,
    judgement,
    basis: value === null ? meta.formula : basis(value, by),
    keepsMargin: by?.keepsMargin === true,
    at: withoutOwn(by?.worst, part.id),
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

/** The part itself stands at the bound. */
function withoutOwn(worst: Demand['worst'], id: string): Demand['worst'] {
  if (worst === undefined || !(id in worst)) return worst;
  const { [id]: _own, ...others } = worst;
  return others;
}
