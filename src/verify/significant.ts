/** A tenth power of this is exact in a double, and so is a whole number below 10^15: their quotient is the nearest double. */
const MOST_EXACT = 22;
const POWERS = Array.from({ length: MOST_EXACT + 1 }, (_, exponent) => Number(`1e${exponent}`));
/** So near to the middle between two whole numbers the product's own rounding may decide. */
const NEAR_HALF = 1e-2;

/**
 * A number with at most that many significant digits, as near as a double comes to it. −0 becomes 0, so that equal
 * results are equal bytes.
 * @param digits at most 14
 * @throws RangeError for NaN and the infinities: an answer never holds one, 'never' and 'unbounded' are stated otherwise.
 */
export function significant(value: number, digits: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  // Counts and round values are the commonest numbers in an answer and need no rounding.
  if (Number.isInteger(value) && Math.abs(value) < 10 ** digits) return value + 0;
  return scaled(value, digits) ?? Number(value.toPrecision(digits)) + 0;
}

/** The same by a power of ten, which costs a fraction of a text; undefined where that might be off. */
function scaled(value: number, digits: number): number | undefined {
  const size = Math.abs(value);
  const power = POWERS[digits - 1 - Math.floor(Math.log10(size))];
  if (power === undefined) return undefined;
  const product = size * power;
  const whole = Math.round(product);
  const sure = Math.abs(product - Math.floor(product) - 0.5) > NEAR_HALF;
  // The logarithm may be off by one beside a power of ten.
  if (!sure || whole < 10 ** (digits - 1) || whole >= 10 ** digits) return undefined;
  return (Math.sign(value) * whole) / power;
}
