import type { LimitRecord } from '../../limits/limit-record.js';
import type { LimitMove } from './compare-schemas.js';
import { compareValues } from './compare-values.js';

/** Limits that moved, and parts that moved against theirs, by name and element. */
export function compareLimits(before: readonly LimitRecord[], after: readonly LimitRecord[]): LimitMove[] {
  const key = ({ name, element }: LimitRecord): string => JSON.stringify([name, element]);
  const earlier = new Map(before.map((limit) => [key(limit), limit]));
  const later = new Map(after.map((limit) => [key(limit), limit]));
  const keys = [...later.keys(), ...[...earlier.keys()].filter((one) => !later.has(one))];
  return keys.flatMap((one) => {
    const [old, now] = [earlier.get(one), later.get(one)];
    const named = now ?? old;
    const fields = compareValues(measureOf(old), measureOf(now));
    if (named === undefined || fields.length === 0) return [];
    const { name, element, unit } = named;
    return [{ name, ...(element === undefined ? {} : { element }), unit, fields }];
  });
}

/** What of a limit can move; a limit that is not there has none of it. */
function measureOf(limit: LimitRecord | undefined): object {
  if (limit === undefined) return {};
  const { value, nominal, present, margin, satisfied, binding } = limit;
  return { value, nominal, present, margin, satisfied, binding };
}
