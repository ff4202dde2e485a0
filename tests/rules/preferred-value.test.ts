import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preferredValues } from '../../src/circuit/e-series.js';
import { largestPreferred } from '../../src/rules/preferred-value.js';
import { relativeTolerance } from '../../src/rules/relative-tolerance.js';
import { about, bare } from './sound-car.js';

describe('preferredValues', () => {
  it('gives the E24 series of IEC 60063 over a decade', () => {
    expect(preferredValues(10, 99)).toEqual([
      10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
    ]);
  });

  it('holds exactly the doubles that the texts mean, in any decade', () => {
    expect(preferredValues(4.7e-7, 5.1e-7)).toEqual([4.7e-7, 5.1e-7]);
    expect(preferredValues(0.00068, 0.00068)).toEqual([0.00068]);
    expect(preferredValues(4.3e6, 4.8e6)).toEqual([4.3e6, 4.7e6]);
  });

  it('is empty between two values, below zero and for no number', () => {
    expect(preferredValues(48, 50)).toEqual([]);
    expect(preferredValues(-5, 0)).toEqual([]);
    expect(preferredValues(1, NaN)).toEqual([]);
  });
});

describe('a preferred value with margin', () => {
  it('keeps a fifth below, and is the largest that does', () => {
    expect(largestPreferred(47_000 / 19)).toBe(1800);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e9, noNaN: true }), (bound) => {
        const value = largestPreferred(bound)!;
        expect(value).toBeLessThanOrEqual(bound * 0.8);
        // The widest step of E24 is 15/13.
        expect((value * 15) / 13).toBeGreaterThan(bound * 0.8 * 0.9999);
      }),
      { seed: 24 },
    );
  });

  it('goes on to smaller ones until one holds, and gives up in the end', () => {
    expect(largestPreferred(1000, (value) => value < 600)).toBe(560);
    expect(largestPreferred(1000, () => false)).toBeUndefined();
    expect(largestPreferred(Infinity)).toBeUndefined();
    expect(largestPreferred(0)).toBeUndefined();
  });
});

describe('relativeTolerance', () => {
  it('takes the larger side of a stated range, and the assumed one of a bare value', () => {
    expect(relativeTolerance(about(1000, 0.05), 0.1)).toBeCloseTo(0.05, 12);
    expect(relativeTolerance({ min: 90, nominal: 100, max: 105, toleranceStated: true }, 0.2)).toBeCloseTo(0.1, 12);
    expect(relativeTolerance(bare(1000), 0.1)).toBe(0.1);
    expect(relativeTolerance({ min: 0, nominal: 0, max: 0, toleranceStated: true }, 0.1)).toBe(0);
  });
});
