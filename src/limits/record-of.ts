import type { Judgement } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';

export interface LimitFacts {
  readonly meta: LimitMeta;
  readonly element?: string;
  readonly outcome: 'bound' | 'no-value-helps' | 'no-value-hurts' | 'not-stated' | 'too-costly';
  readonly value: number | null;
  readonly nominal: number | null;
  readonly present: number | null;
  readonly judgement: Judgement;
  readonly basis: string;
  /** True where the bound keeps a margin for what a search may have missed. */
  readonly keepsMargin?: boolean;
  /** Where the other parts stand in the worst case: element id → share of its range, −1 … 1. */
  readonly at?: Readonly<Record<string, number>> | undefined;
}

const NOTES = {
  'no-value-helps': 'No value of this part alone can satisfy it, the other parts at their worst.',
  'no-value-hurts': 'No value of this part can break it, the other parts at their worst.',
  'not-stated': 'It cannot be computed as described; the fields in `missing` decide it.',
  'too-costly':
    'The bound was not looked for to its end: with these loads that would be more work than one request may ask for. Whether the rule is met does not hang on it.',
} as const;

const MARGIN_NOTE =
  'The worst case over the tolerances is searched for, so the bound keeps a margin for what the search may have missed; narrower tolerances make it smaller.';

/** A limit's record from what is known of it; the margin is relative, to the larger of the two numbers. */
export function recordOf({
  meta,
  element,
  outcome,
  value,
  nominal,
  present,
  judgement,
  basis,
  keepsMargin = false,
  at,
}: LimitFacts): OneLimit {
  const { satisfied, missing } = judgement;
  return {
    name: meta.name,
    ...(element === undefined ? {} : { element }),
    bound: meta.bound,
    rule: meta.rule,
    value,
    nominal,
    unit: meta.unit,
    present,
    margin: margin(meta.bound, nominal, present),
    satisfied,
    basis,
    sources: [...meta.sources],
    outcome,
    ...(outcome !== 'bound' ? { note: NOTES[outcome] } : keepsMargin ? { note: MARGIN_NOTE } : {}),
    ...(at === undefined ? {} : { at }),
    ...(missing.length > 0 ? { missing: [...new Set(missing)] } : {}),
  };
}

/** Share of the limit that is left for a max, of the present value for a min: 0.2 is what a remedy's 20 % means. */
function margin(bound: 'min' | 'max', nominal: number | null, present: number | null): number | null {
  if (nominal === null || present === null) return null;
  const [part, whole] = bound === 'max' ? [present, nominal] : [nominal, present];
  const left = 1 - part / whole;
  // No share of a present value of nothing.
  return Number.isFinite(left) ? left : null;
}
