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
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  // Without a prototype, so that an element named like one of its members is a key like any other.
  const copy = Object.create(null) as Record<string, unknown>;
  for (const [key, field] of Object.entries(value)) copy[key] = rounded(field);
  return copy;
}
