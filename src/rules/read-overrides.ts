import type { QuantityName } from '../circuit/bounded-quantities.js';
import type { Fault } from '../circuit/fault.js';
import { isRecord } from '../circuit/is-record.js';
import { childPointer } from '../circuit/pointer.js';
import { readQuantity } from '../circuit/quantity.js';
import { validate } from '../circuit/validate.js';
import { type Overrides, OverridesSchema } from './overridable-parameters.js';

/** Which overrides are quantities; those inside another under its name. All else is a word, a switch or a count. */
const QUANTITIES: Readonly<Record<string, QuantityName | Readonly<Record<string, QuantityName>>>> = {
  threshold: 'fraction',
  dischargeVoltage: 'voltageMagnitude',
  dischargeTime: 'time',
  dischargeRatingTime: 'time',
  repeats: { within: 'time' },
  maximumReleaseTime: 'time',
  assumedTolerance: { resistor: 'tolerance', capacitor: 'tolerance', meter: 'tolerance' },
  maximumVoltage: 'voltageMagnitude',
};

/**
 * Reads an event's `parameters`: quantities as everywhere in a request, a number in SI or text with a unit (`"5 s"`, `"60 V"`,
 * `"90 %"`), within the bounds of `OverridesSchema`.
 * @returns the values in SI, or every fault at once with its pointer below `pointer`
 */
export function readOverrides(
  input: Readonly<Record<string, unknown>>,
  pointer: string,
): { readonly parameters: Overrides } | { readonly faults: readonly Fault[] } {
  const unreadable: Fault[] = [];
  const parameters = inSi(input, QUANTITIES, pointer, unreadable);
  // A text that cannot be read has its fault already, and is no wrong type besides.
  const told = new Set(unreadable.map((fault) => fault.pointer));
  const faults = validate(OverridesSchema, parameters, pointer).filter((fault) => !told.has(fault.pointer));
  if (unreadable.length + faults.length > 0) return { faults: [...unreadable, ...faults] };
  return { parameters: parameters };
}

function inSi(
  input: Readonly<Record<string, unknown>>,
  quantities: typeof QUANTITIES,
  pointer: string,
  faults: Fault[],
): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(input).map(([key, value]) => {
      const quantity = Object.hasOwn(quantities, key) ? quantities[key] : undefined;
      const place = childPointer(pointer, key);
      if (typeof quantity === 'object') return [key, isRecord(value) ? inSi(value, quantity, place, faults) : value];
      if (quantity === undefined || typeof value !== 'string') return [key, value];
      const reading = readQuantity(value, quantity);
      if ('value' in reading) return [key, reading.value];
      faults.push({ pointer: place, ...reading });
      return [key, value];
    }),
  );
}
