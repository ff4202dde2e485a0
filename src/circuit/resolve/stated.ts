import type { QuantityName } from '../bounded-quantities.js';
import type { Toleranced } from '../model.js';
import { readQuantity } from '../quantity.js';
import { readToleranced } from '../toleranced.js';

/** The SI value of a field that the schema has accepted; undefined where it is not stated. */
export function stated<V extends number | string | undefined>(
  value: V,
  name: QuantityName,
): V extends undefined ? undefined : number;
export function stated(value: number | string | undefined, name: QuantityName): number | undefined {
  if (value === undefined) return undefined;
  const reading = readQuantity(value, name);
  if ('value' in reading) return reading.value;
  throw new Error(`read before it was validated: ${reading.detail}`);
}

/** The range in SI of a field that the schema has accepted; undefined where it is not stated. */
export function statedRange<V>(value: V, name: QuantityName): V extends undefined ? undefined : Toleranced;
export function statedRange(value: unknown, name: QuantityName): Toleranced | undefined {
  if (value === undefined) return undefined;
  const reading = readToleranced(value, name, '');
  if ('value' in reading) return reading.value;
  throw new Error(`read before it was validated: ${reading.faults.map((fault) => fault.detail).join(' ')}`);
}
