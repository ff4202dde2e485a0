import { formatQuantity, type Unit } from './format-quantity.js';

const MOST_DIGITS = 12;

/**
 * A value and its limit as text, with as many digits as it takes to tell them apart: a message that says `5 s is not below
 * 5 s` explains nothing when the value is 5.00004 s. Equal values stay equal.
 */
export function formatAgainst(
  value: number,
  limit: number,
  unit: Unit,
): { readonly value: string; readonly limit: string } {
  let digits = 4;
  while (
    digits < MOST_DIGITS &&
    value !== limit &&
    formatQuantity(value, unit, digits) === formatQuantity(limit, unit, digits)
  ) {
    digits += 1;
  }
  return { value: formatQuantity(value, unit, digits), limit: formatQuantity(limit, unit) };
}
