import type { OneLimit } from './limit.js';
import type { LimitRecord } from './limit-record.js';

/** Marks the tightest of its kind (element, unit, min or max); of equally tight ones the first. */
export function markBinding(records: readonly OneLimit[]): LimitRecord[] {
  const tightest = new Map<string, OneLimit>();
  for (const record of records) {
    if (record.outcome !== 'bound' && record.outcome !== 'no-value-helps') continue;
    const key = `${record.element ?? ''} ${record.unit} ${record.bound}`;
    const known = tightest.get(key);
    if (known === undefined || tightness(record) > tightness(known)) tightest.set(key, record);
  }
  const binding = new Set(tightest.values());
  return records.map((record) => ({ ...record, binding: binding.has(record) }));
}

function tightness({ bound, nominal }: OneLimit): number {
  if (nominal === null) return Number.POSITIVE_INFINITY;
  return bound === 'max' ? -nominal : nominal;
}
