import { describe, expect, it } from 'vitest';
import { crossings } from '../../src/transient/crossings.js';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import { oneRateCrossing } from '../../src/transient/one-rate-crossing.js';
import { decades, random } from './random.js';

const TIE = 1e-12;

describe('the crossing of a signal of one rate', () => {
  it('is where the textbook has it: 600 V through 1 kΩ into 500 µF is at 95 % after 0.5 s·ln 20', () => {
    const rise = new ExponentialSum([0, 2], [600, -600]);
    const found = oneRateCrossing(rise, 570, Infinity, TIE);
    expect(found).toHaveLength(1);
    expect(found![0]!.time).toBeCloseTo(0.5 * Math.log(20), 13);
    expect(found![0]!.direction).toBe(1);
    const fall = oneRateCrossing(new ExponentialSum([1 / 1.1], [600]), 60, Infinity, TIE);
    expect(fall![0]!.time).toBeCloseTo(1.1 * Math.log(10), 13);
    expect(fall![0]!.direction).toBe(-1);
  });

  it('agrees with the general search, which a second rate without weight forces', () => {
    let seen = 0;
    for (let seed = 1; seed <= 400; seed += 1) {
      const next = random(seed);
      const rate = decades(next, -3, 6);
      const [level, fading, driven] = [800 * (next() - 0.5), 800 * (next() - 0.5), 800 * (next() - 0.5) * rate];
      const signal = new ExponentialSum([0, rate], [level, fading], [rate], [0], [driven]);
      const general = new ExponentialSum([0, rate, rate * 3], [level, fading, 0], [rate], [0], [driven]);
      const wanted = 800 * (next() - 0.5);
      const until = next() < 0.5 ? Infinity : decades(next, -2, 2) / rate;
      const quick = oneRateCrossing(signal, wanted, until, TIE * 800);
      if (quick === undefined) continue;
      seen += 1;
      const slow = crossings(general, wanted, until, 800);
      expect(quick.map(({ direction }) => direction)).toEqual(slow.map(({ direction }) => direction));
      // To the rounding of the level over the slope there.
      const slope = Math.abs(signal.derivative().at(slow[0]?.time ?? 0));
      for (const [k, { time }] of quick.entries())
        expect(Math.abs(time - slow[k]!.time)).toBeLessThan(1e-12 * time + (4e-12 * signal.size()) / slope);
    }
    expect(seen).toBeGreaterThan(350);
  });

  it('is left to the general search where the level is the limit or the start, or there are two rates', () => {
    const rise = new ExponentialSum([0, 2], [600, -600]);
    expect(oneRateCrossing(rise, 600, Infinity, TIE)).toBeUndefined();
    expect(oneRateCrossing(rise, 0, Infinity, TIE)).toBeUndefined();
    expect(oneRateCrossing(new ExponentialSum([1, 2], [1, 1]), 0.5, Infinity, TIE)).toBeUndefined();
    expect(oneRateCrossing(ExponentialSum.constant(3), 2, Infinity, TIE)).toBeUndefined();
  });
});
