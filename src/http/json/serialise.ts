import { significant } from '../../verify/significant.js';

/** Digits of every number in an answer; the engine's own accuracy is 1e-9, so nothing true is lost. */
export const ANSWER_DIGITS = 12;

/**
 * An answer as JSON text: every number to 12 significant digits, keys in the order in which they were written, fields
 * that are `undefined` left out. No schema is consulted, so nothing is dropped or coerced on the way.
 * @throws RangeError where a number is not finite
 */
export function serialise(answer: unknown): string {
  return JSON.stringify(rounded(answer));
}

function rounded(value: unknown): unknown {
  if (typeof value === 'number') return significant(value, ANSWER_DIGITS);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(rounded);
  const fields = value as Readonly<Record<string, unknown>>;
  const keys = Object.keys(fields);
  // Without a prototype where an element is named so that it would set one: there it is a key like any other.
  const copy: Record<string, unknown> = keys.includes('__proto__') ? (Object.create(null) as typeof copy) : {};
  for (const key of keys) copy[key] = rounded(fields[key]);
  return copy;
}
