import { describe, expect, it } from 'vitest';
import { enclosure, noiseAt } from '../../src/transient/enclosure.js';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import { decades, pick, random } from './random.js';

function randomSum(next: () => number): ExponentialSum {
  const rate = () => pick(next, [0, 1, 1.000001, decades(next, -4, 4)]);
  const plain = Math.floor(next() * 5);
  const driven = Math.floor(next() * 4);
  return new ExponentialSum(
    Array.from({ length: plain }, rate),
    Array.from({ length: plain }, () => 2 * next() - 1),
    Array.from({ length: driven }, rate),
    Array.from({ length: driven }, rate),
    Array.from({ length: driven }, () => 2 * next() - 1),
  );
}

describe('enclosure', () => {
  it('holds every value of the interval, its derivatives too', () => {
    const next = random(51);
    for (let round = 0; round < 200; round += 1) {
      const plain = randomSum(next);
      const sum = pick(next, [plain, plain.derivative(), plain.derivative().derivative()]);
      const from = pick(next, [0, decades(next, -4, 2)]);
      const to = from + decades(next, -6, 2);
      const { low, high } = enclosure(sum, from, to);
      const slack = noiseAt(sum, from) + noiseAt(sum, to) + 1e-15 * (Math.abs(low) + Math.abs(high));
      for (let k = 0; k <= 50; k += 1) {
        const value = sum.at(from + ((to - from) * k) / 50);
        expect([round, value]).toEqual([round, Math.max(low - slack, Math.min(high + slack, value))]);
      }
    }
  });

  it('is as narrow as the signal where large terms cancel', () => {
    // e^−t − 3e^−1.01t + 3e^−1.02t − e^−1.03t = e^−t·(1 − e^−0.01t)³: 1e-6 at t = 1, of terms of 1.
    const sum = new ExponentialSum([1, 1.01, 1.02, 1.03], [1, -3, 3, -1]);
    const { low, high } = enclosure(sum, 1, 1.2);
    expect(low).toBeGreaterThan(0);
    expect(high).toBeLessThan(2 * sum.at(1.1));
    expect(sum.range(1, 1.2).low).toBeLessThan(-0.1);
  });
});

describe('noiseAt', () => {
  it('is small beside the terms, and fades with them', () => {
    const sum = new ExponentialSum([2, 1], [5, -5], [1], [0], [1]);
    expect(noiseAt(sum, 0)).toBeLessThan(1e-13);
    expect(noiseAt(new ExponentialSum([2], [5]), 20)).toBeLessThan(1e-28);
  });
});
