import { acceptedForm } from './accepted-form.js';
import { boundedQuantity, type QuantityName } from './bounded-quantities.js';
import { closest, suggestionEnd } from './closest.js';
import type { Fault } from './fault.js';
import { isRecord } from './is-record.js';
import { makeFault } from './make-fault.js';
import type { Toleranced } from './model.js';
import { childPointer } from './pointer.js';
import { readQuantity } from './quantity.js';
import { quoted } from './quoted.js';

export type TolerancedReading = { readonly value: Toleranced } | { readonly faults: readonly Fault[] };

/** A quantity has fewer fields; of one with more only so many are named as unknown. */
const MOST_FIELDS = 20;
const KEYS = ['min', 'nominal', 'max', 'tolerance'] as const;
type Key = (typeof KEYS)[number];

/**
 * Reads a toleranced quantity: a bare quantity (tolerance not stated), `{nominal, tolerance}` with a relative symmetric
 * tolerance 0 ≤ t < 1, or `{min, nominal, max}`. With a tolerance the range is nominal·(1 ± t).
 * @returns the range in SI, or every fault with its pointer below `pointer`.
 */
export function readToleranced(input: unknown, name: QuantityName, pointer: string): TolerancedReading {
  const form = tolerancedForm(name);
  if (!isRecord(input)) {
    const reading = readQuantity(input, name);
    if ('value' in reading) return { value: range(reading.value, reading.value, reading.value, false) };
    return { faults: [makeFault(pointer, reading.code, reading.detail, form)] };
  }
  const faults: Fault[] = [];
  /** Fields given under a misspelt name: one mistake, named there and not as missing besides. */
  const misspelt = new Set<string | undefined>();
  for (const key of Object.keys(input).slice(0, MOST_FIELDS)) {
    if (KEYS.some((known) => known === key)) continue;
    misspelt.add(closest(key, KEYS));
    const detail = `${quoted(key)} is not a known field${suggestionEnd(key, KEYS)}`;
    faults.push(makeFault(childPointer(pointer, key), 'unknown-field', detail, form));
  }
  const field = (key: Key): number | undefined => {
    const place = childPointer(pointer, key);
    if (!Object.hasOwn(input, key)) {
      if (!misspelt.has(key)) faults.push(makeFault(place, 'missing-field', `\`${key}\` is missing.`, form));
      return undefined;
    }
    const reading = readQuantity(input[key], key === 'tolerance' ? 'tolerance' : name);
    if ('value' in reading) return reading.value;
    faults.push(makeFault(place, reading.code, reading.detail, reading.accepted));
    return undefined;
  };
  const ranged = Object.hasOwn(input, 'min') || Object.hasOwn(input, 'max');
  if (ranged && Object.hasOwn(input, 'tolerance')) {
    const detail = 'A quantity takes either `tolerance` or `min` and `max` beside `nominal`, not both.';
    faults.push(makeFault(childPointer(pointer, 'tolerance'), 'mixed-tolerance', detail, form));
  }
  const nominal = field('nominal');
  const tolerance = ranged ? undefined : field('tolerance');
  const min = ranged ? field('min') : scaled(nominal, tolerance, -1);
  const max = ranged ? field('max') : scaled(nominal, tolerance, 1);
  // What cannot be read is left out of the order.
  const ends = [min, nominal, max].filter((end) => end !== undefined);
  if (ends.some((end, index) => end < (ends[index - 1] ?? end))) {
    faults.push(makeFault(pointer, 'unordered-range', 'The range must hold min ≤ nominal ≤ max.'));
  }
  if (!ranged) faults.push(...outOfBounds([min, max], name, pointer));
  if (faults.length > 0 || min === undefined || nominal === undefined || max === undefined) return { faults };
  return { value: range(min, nominal, max, true) };
}

function range(min: number, nominal: number, max: number, toleranceStated: boolean): Toleranced {
  return { min, nominal, max, toleranceStated };
}

function scaled(nominal: number | undefined, tolerance: number | undefined, sign: 1 | -1): number | undefined {
  return nominal === undefined || tolerance === undefined ? undefined : nominal * (1 + sign * tolerance);
}

/** A tolerance may carry the end of a range out of the bounds that hold for the nominal value. */
function outOfBounds(ends: ReadonlyArray<number | undefined>, name: QuantityName, pointer: string): Fault[] {
  return ends.flatMap((end) => {
    const reading = end === undefined ? undefined : readQuantity(end, name);
    return reading === undefined || 'value' in reading
      ? []
      : [makeFault(pointer, reading.code, reading.detail, reading.accepted)];
  });
}

function tolerancedForm(name: QuantityName): string {
  const plain = acceptedForm(boundedQuantity(name));
  return `${plain}; or \`{"nominal": …, "tolerance": 0.05}\`; or \`{"min": …, "nominal": …, "max": …}\``;
}
