import { describe, expect, it } from 'vitest';
import { drivenMode, ExponentialSum, integralOfProduct } from '../../src/transient/exponential-sum.js';
import { riseFunction } from '../../src/transient/rise-function.js';
import { type Big, big, relativeError } from './big.js';
import { decades, pick, random } from './random.js';

/** A term's exponential, product and sum, with a factor for the exponent's own rounding (x·ε for e^x, x up to 30). */
const ROUNDING = 1e-14;

/** Plain and driven terms together, coincident rates and rates of 0 among them. */
function randomSum(next: () => number, low = -2, high = 2): ExponentialSum {
  const rates = [0, 1, 1.0000001, decades(next, low, high), decades(next, low, high)];
  const plain = 1 + Math.floor(next() * 3);
  const driven = Math.floor(next() * 3);
  const rate = () => pick(next, rates);
  return new ExponentialSum(
    Array.from({ length: plain }, rate),
    Array.from({ length: plain }, () => 2 * next() - 1),
    Array.from({ length: driven }, rate),
    Array.from({ length: driven }, rate),
    Array.from({ length: driven }, () => 2 * next() - 1),
  );
}

function phi(mode: number, drive: number, time: number): Big {
  const t = big(time);
  const a = big(mode);
  const b = big(drive);
  if (mode === drive) return t.times(a.times(t).neg().exp());
  return b.times(t).neg().exp().minus(a.times(t).neg().exp()).div(a.minus(b));
}

function atBig(sum: ExponentialSum, time: number): Big {
  let total = big(0);
  sum.rates.forEach((rate, i) => {
    total = total.plus(big(sum.coefficients[i]!).times(big(rate).times(big(time)).neg().exp()));
  });
  sum.driven.forEach((c, j) => {
    total = total.plus(big(c).times(phi(sum.modeRates[j]!, sum.driveRates[j]!, time)));
  });
  return total;
}

describe('a sum of exponentials', () => {
  it('agrees with 64 digits at any time, relative to the size of its terms', () => {
    const next = random(3);
    let worst = 0;
    for (let round = 0; round < 60; round += 1) {
      const sum = randomSum(next, -6, 6);
      const time = decades(next, -7, 1.4);
      const error = big(sum.at(time)).minus(atBig(sum, time)).abs().toNumber();
      worst = Math.max(worst, error / Math.max(sum.size(), Math.abs(sum.at(time))));
    }
    expect(worst).toBeLessThan(ROUNDING);
  });

  it('has a derivative of its own kind: the difference quotient in 64 digits agrees', () => {
    const next = random(4);
    for (let round = 0; round < 30; round += 1) {
      const sum = randomSum(next);
      const time = 3 * next();
      const step = 2 ** -40;
      const quotient = atBig(sum, time + step)
        .minus(atBig(sum, Math.max(0, time - step)))
        .div(big(time + step).minus(big(Math.max(0, time - step))));
      // The central quotient is off by step²·|f'''|/6, below 1e-24·1e6.
      expect(Math.abs(sum.derivative().at(time) - quotient.toNumber())).toBeLessThan(
        1e-12 * 100 * Math.max(1, sum.size()),
      );
    }
  });

  it('has second and third derivatives too', () => {
    const sum = new ExponentialSum([2], [3], [1, 0], [1, 0.5], [4, -2]);
    // By hand: 3e^−2t + 4t·e^−t − 4(1 − e^−t/2).
    const third = (t: number) => -24 * Math.exp(-2 * t) + 4 * (3 - t) * Math.exp(-t) - 0.5 * Math.exp(-t / 2);
    for (const t of [0, 0.3, 2, 9]) {
      expect(sum.derivative().derivative().derivative().at(t)).toBeCloseTo(third(t), 12);
    }
  });

  it('stays inside its range over any interval, and the range is no wider than the terms', () => {
    const next = random(5);
    for (let round = 0; round < 200; round += 1) {
      const sum = randomSum(next);
      const from = 4 * next();
      const to = from + decades(next, -3, 1);
      const { low, high } = sum.range(from, to);
      const slack = 1e-14 * Math.max(sum.size(), Math.abs(low), Math.abs(high));
      for (let k = 0; k <= 40; k += 1) {
        const value = sum.at(from + ((to - from) * k) / 40);
        expect(value).toBeGreaterThanOrEqual(low - slack);
        expect(value).toBeLessThanOrEqual(high + slack);
      }
    }
  });

  it('has an exact range where every term moves one way', () => {
    const sum = new ExponentialSum([0, 1, 3], [5, -2, -1]);
    expect(sum.range(0.25, 2)).toEqual({ low: sum.at(0.25), high: sum.at(2) });
  });

  it.each([
    [new ExponentialSum([0, 2], [3, -1]), 3],
    [new ExponentialSum([], [], [4], [0], [2]), 0.5],
    // A drive that fades leaves what it has put into a mode that nothing discharges: ∫ 2e^−4t dt.
    [new ExponentialSum([], [], [0], [4], [2]), 0.5],
    [new ExponentialSum([], [], [3], [4], [2]), 0],
    [new ExponentialSum([0], [1], [0], [0], [-2]), -Infinity],
  ])('has the limit that its values approach (%#)', (sum, limit) => {
    expect(sum.limit()).toBe(limit);
    const late = sum.at(1e6);
    if (Number.isFinite(limit)) expect(late).toBeCloseTo(limit, 12);
    else expect(late).toBeLessThan(-1e6);
  });

  it('adds and scales term by term', () => {
    const next = random(6);
    const a = randomSum(next);
    const b = randomSum(next);
    for (const t of [0, 0.1, 3]) expect(a.plus(b, -2).times(3).at(t)).toBeCloseTo(3 * a.at(t) - 6 * b.at(t), 12);
  });
});

describe('riseFunction and drivenMode', () => {
  it('keep every digit from λt = 1e-15 to 1e3', () => {
    const next = random(7);
    let worst = 0;
    for (let round = 0; round < 100; round += 1) {
      const rate = decades(next, -9, 6);
      const time = decades(next, -15, 2.8) / rate;
      worst = Math.max(worst, relativeError(riseFunction(rate, time), phi(rate, 0, time)));
    }
    expect(worst).toBeLessThan(1e-15);
    expect(riseFunction(0, 7)).toBe(7);
  });

  it('keep their digits where mode and drive nearly coincide', () => {
    const next = random(8);
    let worst = 0;
    for (let round = 0; round < 100; round += 1) {
      const mode = decades(next, -3, 3);
      const drive = mode * (1 + pick(next, [0, 1e-15, 1e-9, 1e-3, 1]) * (next() - 0.5));
      const time = decades(next, -3, 1) / mode;
      worst = Math.max(worst, relativeError(drivenMode(mode, drive, time), phi(mode, drive, time)));
    }
    expect(worst).toBeLessThan(ROUNDING);
  });
});

/** Gauss–Legendre nodes and weights on [−1, 1]. Source: the three-term recurrence of Legendre polynomials, textbook. */
function gauss(n: number): ReadonlyArray<readonly [number, number]> {
  return Array.from({ length: n }, (_, k): [number, number] => {
    let x = Math.cos((Math.PI * (k + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 50; round += 1) {
      let before = 1;
      let here = x;
      for (let m = 2; m <= n; m += 1) [before, here] = [here, ((2 * m - 1) * x * here - (m - 1) * before) / m];
      slope = (n * (x * here - before)) / (x * x - 1);
      x -= here / slope;
    }
    return [x, 2 / ((1 - x * x) * slope * slope)];
  });
}

const NODES = gauss(24);

/** 24 nodes on each of eight parts: exact for exponents up to 30 a part to well below the rounding. */
function quadrature(f: (t: number) => number, end: number): number {
  let sum = 0;
  for (let part = 0; part < 8; part += 1) {
    for (const [x, w] of NODES) sum += ((w * end) / 16) * f((end * (part + (x + 1) / 2)) / 8);
  }
  return sum;
}

describe('integralOfProduct', () => {
  it('agrees with quadrature of order 48, with and without a kernel', () => {
    const next = random(9);
    let worst = 0;
    for (let round = 0; round < 120; round += 1) {
      const f = randomSum(next, -2, 1);
      const g = round % 3 === 0 ? f : randomSum(next, -2, 1);
      const end = decades(next, -2, 1);
      const kernel = pick(next, [0, 0, 1, 0.3, 7]);
      const expected = quadrature((t) => Math.exp(-kernel * (end - t)) * f.at(t) * g.at(t), end);
      const size = quadrature((t) => Math.exp(-kernel * (end - t)) * Math.abs(f.at(t) * g.at(t)), end);
      // The closed form adds terms as large as the product of the sizes; it is that which rounding is relative to.
      const terms = f.size() * g.size() * Math.min(end, kernel === 0 ? end : 1 / kernel);
      worst = Math.max(
        worst,
        Math.abs(integralOfProduct(f, g, end, kernel) - expected) / Math.max(size, terms, Math.abs(expected)),
      );
    }
    expect(worst).toBeLessThan(1e-13);
  });

  it('agrees with the primitive in 64 digits for a charging current squared', () => {
    // i = I·e^(−t/τ): ∫ i² dt = I²·τ/2·(1 − e^(−2T/τ)).
    const next = random(10);
    let worst = 0;
    for (let round = 0; round < 50; round += 1) {
      const rate = decades(next, -6, 6);
      const end = decades(next, -6, 1) / rate;
      const square = integralOfProduct(new ExponentialSum([rate], [0.6]), new ExponentialSum([rate], [0.6]), end);
      const exact = big(0.6)
        .times(big(0.6))
        .times(phi(2 * rate, 0, end));
      worst = Math.max(worst, relativeError(square, exact));
    }
    expect(worst).toBeLessThan(ROUNDING);
  });

  it('is 0 over no time', () => {
    expect(integralOfProduct(ExponentialSum.constant(3), ExponentialSum.constant(4), 0)).toBe(0);
  });
});
