/**
 * A number with at most that many significant digits, as near as a double comes to it. −0 becomes 0, so that equal
 * results are equal bytes.
 * @throws RangeError for NaN and the infinities: an answer never holds one, 'never' and 'unbounded' are stated otherwise.
 */
export function significant(value: number, digits: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  // Counts and round values are the commonest numbers in an answer and need no text form.
  if (Number.isInteger(value) && Math.abs(value) < 10 ** digits) return value + 0;
  return Number(value.toPrecision(digits)) + 0;
}
