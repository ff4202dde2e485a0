import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import type { LimitRecord } from './limit-record.js';
import { loadBounds } from './load-bounds.js';
import { markBinding } from './mark-binding.js';

/** The limits on a part, and for one that loads the rise what else the rise asks of it. */
export function boundsOn(facts: Facts, part: BoundedPart, records: readonly LimitRecord[]): readonly LimitRecord[] {
  const own = records.filter(({ element, unit }) => element === part.id && unit === part.unit);
  const isLoad = own.some(({ name }) => name === 'precharge-load-resistance-min');
  return isLoad ? markBinding([...own, ...loadBounds(facts, part)]) : own;
}
