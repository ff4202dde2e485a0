import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremeRatios } from '../../../src/facts/figures/extreme-ratios.js';
import { ExponentialSum } from '../../../src/transient/exponential-sum.js';

const sum = (...terms: ReadonlyArray<readonly [number, number]>) =>
  new ExponentialSum(
    terms.map(([, rate]) => rate),
    terms.map(([coefficient]) => coefficient),
  );

describe('extremeRatios', () => {
  it('finds the ends where the ratio goes one way: e^(−t)/e^(−3t) = e^(2t)', () => {
    const { least, most } = extremeRatios(sum([1, 1]), sum([1, 3]), 0.5, 2);
    expect(least.time).toBe(0.5);
    expect(least.ratio).toBeCloseTo(Math.E, 12);
    expect(most.time).toBe(2);
    expect(most.ratio).toBeCloseTo(Math.exp(4), 9);
  });

  // (e^(−t) − e^(−2t))/1 is largest where e^(−t) = ½: ¼ at ln 2. By the derivative, textbook.
  it('finds a turning point inside, on a range without end', () => {
    const { least, most } = extremeRatios(sum([1, 1], [-1, 2]), ExponentialSum.constant(1), 0, Infinity);
    expect(most.ratio).toBeCloseTo(0.25, 12);
    expect(most.time).toBeCloseTo(Math.LN2, 6);
    expect(least.ratio).toBeCloseTo(0, 12);
  });

  it('finds a short dip that a coarse table of instants would miss', () => {
    // A term that is gone within 1 ms of a range of 100 s.
    const { least } = extremeRatios(sum([1, 0.01], [-0.5, 5000], [0.5, 50_000]), sum([1, 0.01]), 0, 100);
    const dip = (t: number) => 1 + (0.5 * Math.exp(-50_000 * t) - 0.5 * Math.exp(-5000 * t)) / Math.exp(-0.01 * t);
    // By the derivative of the two quick terms: ln(10)/45 000 s.
    expect(least.time).toBeCloseTo(Math.LN10 / 45_000, 7);
    expect(least.ratio).toBeCloseTo(dip(Math.LN10 / 45_000), 9);
  });

  it('says that a fixed share is one at every instant', () => {
    const voltage = sum([400, 0.4], [-3, 17]);
    const { least, most } = extremeRatios(voltage.times(0.997), voltage, 0, 4);
    expect(least.ratio).toBeCloseTo(0.997, 12);
    expect(most.ratio).toBeCloseTo(0.997, 12);
  });

  it('leaves nothing beyond it at any of many instants', () => {
    const term = fc.tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true }));
    const positive = fc.tuple(fc.double({ min: 1, max: 50, noNaN: true }), fc.double({ min: 0, max: 3, noNaN: true }));
    const duration = fc.double({ min: 0.01, max: 5, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(term, { minLength: 1, maxLength: 5 }),
        fc.array(positive, { minLength: 1, maxLength: 4 }),
        duration,
        (a, b, to) => {
          const [numerator, denominator] = [sum(...a), sum(...b)];
          const { least, most } = extremeRatios(numerator, denominator, 0, to);
          const slack = 1e-9 * Math.max(1, Math.abs(least.ratio), Math.abs(most.ratio));
          for (let k = 0; k <= 400; k += 1) {
            // Denser at first, where quick terms are at work.
            const time = to * (k / 400) ** 3;
            const ratio = numerator.at(time) / denominator.at(time);
            expect(ratio).toBeGreaterThanOrEqual(least.ratio - slack);
            expect(ratio).toBeLessThanOrEqual(most.ratio + slack);
          }
        },
      ),
      { numRuns: 300, seed: 13 },
    );
  });
});
