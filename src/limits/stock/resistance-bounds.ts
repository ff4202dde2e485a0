import type { LimitRecord } from '../limit-record.js';

/** Limits on a resistance that follow from the present part's power rating. Another part has another: see `powerQuestions`. */
const BY_RATING = new Set(['precharge-resistance-min-energy', 'discharge-resistance-min-power']);

/** What the limits leave for the true resistance in one place, whatever its power rating. */
export interface ResistanceBounds {
  /** Ω; both ends are outside. */
  readonly above: number;
  readonly below: number;
  /** The limit that no value satisfies. */
  readonly hopeless?: string;
  /** Limits that cannot be computed. */
  readonly open: readonly string[];
}

/** @param records what bounds the resistance in that place, what its loading of the rise asks included */
export function resistanceBounds(records: readonly LimitRecord[]): ResistanceBounds {
  const own = records.filter(({ name }) => !BY_RATING.has(name));
  const values = (bound: 'min' | 'max'): number[] =>
    own.flatMap((one) => (one.bound === bound && one.value !== null ? [one.value] : []));
  const hopeless = own.find(({ outcome }) => outcome === 'no-value-helps')?.name;
  return {
    above: Math.max(0, ...values('min')),
    below: Math.min(Infinity, ...values('max')),
    ...(hopeless === undefined ? {} : { hopeless }),
    open: own.filter(({ outcome }) => outcome === 'not-stated' || outcome === 'too-costly').map(({ name }) => name),
  };
}
