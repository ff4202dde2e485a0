import { describe, expect, it } from 'vitest';
import {
  type DoubleDouble,
  ddAdd,
  ddDivide,
  ddFrom,
  ddMultiply,
  ddProduct,
  ddSquareRoot,
  ddSubtract,
} from '../../src/transient/double-double.js';
import { type Big, big } from './big.js';
import { decades, random } from './random.js';

/** Dekker's bounds: a few units of 2⁻¹⁰⁴. */
const ROUNDING = 16 * 2 ** -104;

const exactly = ({ hi, lo }: DoubleDouble): Big => big(hi).plus(big(lo));
const some = (next: () => number): DoubleDouble => {
  const hi = decades(next, -8, 8) * (next() < 0.5 ? -1 : 1);
  return { hi, lo: hi * (next() - 0.5) * 2 ** -53 };
};
const off = (value: DoubleDouble, exact: Big): number => exactly(value).minus(exact).div(exact).abs().toNumber();

describe('double-double arithmetic', () => {
  it('has 31 digits in products, quotients and roots, and in sums without cancellation', () => {
    const next = random(91);
    let worst = 0;
    for (let round = 0; round < 100; round += 1) {
      const x = some(next);
      const y = some(next);
      const [a, b] = [exactly(x), exactly(y)];
      const square = { hi: Math.abs(x.hi), lo: Math.sign(x.hi) * x.lo };
      worst = Math.max(
        worst,
        off(ddMultiply(x, y), a.times(b)),
        off(ddDivide(x, y), a.div(b)),
        off(ddSquareRoot(square), a.abs().sqrt()),
        exactly(ddAdd(x, y)).minus(a.plus(b)).abs().div(a.abs().plus(b.abs())).toNumber(),
        exactly(ddSubtract(x, y)).minus(a.minus(b)).abs().div(a.abs().plus(b.abs())).toNumber(),
      );
    }
    expect(worst).toBeLessThan(ROUNDING);
  });

  it('multiplies two doubles without any error that 60 digits show', () => {
    const next = random(92);
    for (let round = 0; round < 100; round += 1) {
      const [a, b] = [decades(next, -8, 8), -decades(next, -8, 8)];
      expect(off(ddProduct(a, b), big(a).times(big(b)))).toBeLessThan(1e-60);
    }
  });

  it('keeps a leak beside a cable through a subtraction', () => {
    const sum = ddAdd(ddFrom(1e3), ddFrom(1e-16));
    expect(ddSubtract(sum, ddFrom(1e3)).hi).toBe(1e-16);
  });

  it('takes the root of nothing as nothing', () => {
    expect(ddSquareRoot(ddFrom(0))).toEqual({ hi: 0, lo: 0 });
  });
});
