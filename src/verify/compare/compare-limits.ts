import type { LimitRecord } from '../../limits/limit-record.js';
import type { LimitMove } from './compare-schemas.js';
import { compareValues } from './compare-values.js';

/** Relative. A bound is searched for on the circuit as it stands; no part is as exact as the last digits of that search. */
const UNMOVED = 1e-6;

/** Limits that moved, and parts that moved against theirs, by name, element and side. */
export function compareLimits(before: readonly LimitRecord[], after: readonly LimitRecord[]): LimitMove[] {
  const key = ({ name, element, bound }: LimitRecord): string => JSON.stringify([name, element, bound]);
  const earlier = new Map(before.map((limit) => [key(limit), limit]));
  const later = new Map(after.map((limit) => [key(limit), limit]));
  const keys = [...later.keys(), ...[...earlier.keys()].filter((one) => !later.has(one))];
  return keys.flatMap((one) => {
    const [old, now] = [earlier.get(one), later.get(one)];
    const named = now ?? old;
    const fields = compareValues(measureOf(old), unmoved(measureOf(old), measureOf(now)));
    if (named === undefined || fields.length === 0) return [];
    const { name, element, bound, unit } = named;
    return [{ name, ...(element === undefined ? {} : { element }), bound, unit, fields }];
  });
}

type Measure = Readonly<Record<string, unknown>>;

/** What is measured now, with the earlier number where the two are the same but for the search. */
function unmoved(old: Measure, now: Measure): Measure {
  return Object.fromEntries(
    Object.entries(now).map(([field, to]) => {
      const from = old[field];
      const same = typeof from === 'number' && typeof to === 'number' && near(from, to);
      return [field, same ? from : to];
    }),
  );
}

function near(one: number, other: number): boolean {
  return Math.abs(one - other) <= UNMOVED * Math.max(Math.abs(one), Math.abs(other));
}

/** What of a limit can move; a limit that is not there has none of it. */
function measureOf(limit: LimitRecord | undefined): Measure {
  if (limit === undefined) return {};
  const { value, nominal, present, margin, satisfied, binding } = limit;
  return { value, nominal, present, margin, satisfied, binding };
}
