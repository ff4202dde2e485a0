import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { significant } from '../../src/verify/significant.js';

describe('significant', () => {
  it.each([
    [2473.684210526316, 12, 2473.68421053],
    [0.1 + 0.2, 12, 0.3],
    [5, 12, 5],
    [-0, 12, 0],
    [1e300 / 7, 3, 1.43e299],
    [123456, 3, 123000],
  ])('%d to %d digits is %d', (value, digits, expected) => {
    expect(significant(value, digits)).toBe(expected);
  });

  it('moves a value by at most half a unit of the last digit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: 1e-300 }), (value) => {
        // Half of 10^(1 − 12) relative to the leading digit; a hair more for the rounding of the comparison itself.
        expect(Math.abs(significant(value, 12) - value)).toBeLessThanOrEqual(value * 5.000001e-12);
      }),
    );
  });

  it.each([9, 12])('is the number that the shortest text of %i digits stands for', (digits) => {
    const exponent = fc.integer({ min: -30, max: 20 });
    const mantissa = fc.double({ noNaN: true, min: 1, max: 10 });
    fc.assert(
      fc.property(mantissa, exponent, fc.constantFrom(1, -1), (size, power, sign) => {
        const value = sign * size * 10 ** power;
        expect(significant(value, digits)).toBe(Number(value.toPrecision(digits)));
      }),
      { numRuns: 5000 },
    );
    // Just below a power of ten, and in the middle between two numbers of so many digits.
    for (const value of [9.999999999999, 99.99999999999, 0.9999999999995, 1.0000000000005, 1e-5, 1000.5])
      expect(significant(value, digits)).toBe(Number(value.toPrecision(digits)));
  });

  it('is idempotent', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const once = significant(value, 12);
        expect(significant(once, 12)).toBe(once);
        expect(Object.is(once, -0)).toBe(false);
      }),
    );
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('throws for %d', (value) => {
    expect(() => significant(value, 12)).toThrow(RangeError);
  });
});
