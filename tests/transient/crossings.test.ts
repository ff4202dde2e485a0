import { describe, expect, it } from 'vitest';
import { crossings, firstAtOrAbove } from '../../src/transient/crossings.js';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import { big } from './big.js';
import { solveBig } from './big-matrix.js';
import { decades, pick, random } from './random.js';

/** A root moves by the signal's own rounding over its slope; ten terms' worth of rounding. */
const ROUNDING = 1e-15 * 10;

/** Σ aₖ·e^(−λₖt), the last coefficient 1, that is 0 at each of the times: n rates have one for any n − 1 times (a Chebyshev system). */
function withRoots(rates: readonly number[], times: readonly number[]): ExponentialSum {
  const value = (rate: number, time: number) => big(rate).times(big(time)).neg().exp();
  const free = rates.slice(0, -1);
  const solved = solveBig(
    times.map((time) => free.map((rate) => value(rate, time))),
    times.map((time) => [value(rates.at(-1)!, time).neg()]),
  );
  return new ExponentialSum(rates, [...solved.map((row) => row[0]!.toNumber()), 1]);
}

describe('crossings', () => {
  it('finds every root that a sum was made to have, in order, with its direction', () => {
    const next = random(11);
    let tried = 0;
    for (let round = 0; round < 150; round += 1) {
      const count = 1 + (round % 4);
      const rates = [...new Set(Array.from({ length: count + 1 }, () => decades(next, -3, 3)))].sort((a, b) => b - a);
      // Each root where two neighbouring rates are at work, else a coefficient overflows.
      const times = rates.slice(1).map((rate, k) => (4 * next()) / Math.sqrt(rate * rates[k]!));
      times.sort((a, b) => a - b);
      const sum = withRoots(rates, times);
      const scale = sum.size();
      if (!Number.isFinite(scale)) continue;
      // Where the sum hardly leaves the level between two of them, or after the last, they are no crossings by the contract of the tie.
      const between = times.slice(1).map((time, k) => Math.abs(sum.at((time + times[k]!) / 2)));
      between.push(Math.abs(sum.at(0)), Math.abs(sum.at(times.at(-1)! + 0.5 / rates.at(-1)!)));
      const slopes = times.map((time) => Math.abs(sum.derivative().at(time)));
      if (Math.min(...between, ...slopes.map((slope, k) => slope * times[k]!)) < 1e-8 * scale) continue;
      tried += 1;
      const found = crossings(sum, 0, Infinity, scale);
      expect(found.map(({ direction }) => direction)).toEqual(
        times.map((time) => Math.sign(sum.derivative().at(time))),
      );
      found.forEach(({ time }, k) => {
        expect(Math.abs(time - times[k]!)).toBeLessThan((ROUNDING * scale) / slopes[k]! + 4e-16 * time);
      });
    }
    expect(tried).toBeGreaterThan(50);
  });

  it('misses nothing and invents nothing: signs at many instants agree, for sums with driven terms and drifts', () => {
    const next = random(12);
    let roots = 0;
    const wrong: unknown[] = [];
    for (let round = 0; round < 200; round += 1) {
      const rate = () => pick(next, [0, decades(next, -3, 3), 1, 1.0001]);
      const plain = 1 + Math.floor(next() * 5);
      const driven = Math.floor(next() * 3);
      const sum = new ExponentialSum(
        Array.from({ length: plain }, rate),
        Array.from({ length: plain }, () => 2 * next() - 1),
        Array.from({ length: driven }, rate),
        Array.from({ length: driven }, rate),
        Array.from({ length: driven }, () => 2 * next() - 1),
      );
      const level = pick(next, [0, 0.3 * (next() - 0.5)]);
      const scale = Math.max(sum.size(), Math.abs(level));
      const end = 200;
      const found = crossings(sum, level, end, scale);
      const turns = found.filter(({ direction, time }) => direction !== 0 && time > 0);
      roots += turns.length;
      const times = Array.from({ length: 300 }, (_, k) => end * 10 ** (-6 * (1 - k / 299)));
      let before = 0;
      let passed = 0;
      for (const time of [0, ...times]) {
        const value = sum.at(time) - level;
        const until = turns.filter((each) => each.time <= time).length;
        if (Math.abs(value) <= 1e-11 * scale) continue;
        if (before !== 0) if ((until - passed) % 2 !== (Math.sign(value) === before ? 0 : 1)) wrong.push([round, time]);
        before = Math.sign(value);
        passed = until;
      }
      for (const { time, direction } of turns) {
        const width = 1e-6 * time;
        const near = [sum.at(time - width) - level, sum.at(time + width) - level];
        if (Math.min(...near.map(Math.abs)) > 1e-11 * scale)
          expect([Math.sign(near[0]!), Math.sign(near[1]!)]).toEqual([-direction, direction]);
        expect(Math.abs(sum.at(time) - level)).toBeLessThan(1e-11 * scale);
      }
    }
    expect(wrong).toEqual([]);
    expect(roots).toBeGreaterThan(50);
  });

  // (e^−t − x)²: a double root at −ln x. The first three lie exactly where the search splits its intervals.
  it.each([0.25, 0.5, 2, 0.1, 0.3, 1, 4, 7])('finds a touch at %d once, from above and from below', (time) => {
    const x = Math.exp(-time);
    const above = new ExponentialSum([2, 1, 0], [1, -2 * x, x * x]);
    for (const sum of [above, above.times(-1)]) {
      const found = crossings(sum, 0, Infinity, 1);
      expect(found.map(({ direction }) => direction)).toEqual([0]);
      // Within the tie of a parabola: √(1e-12 / curvature).
      expect(Math.abs(found[0]!.time - time)).toBeLessThan(Math.sqrt(1e-12) / x);
    }
  });

  it('finds a touch between two crossings', () => {
    // (e^−t − ½)²·(e^−t − 0.9)·(e^−t − 0.1) multiplied out.
    const coefficients = [1, -2, 1.34, -0.34, 0.0225];
    const sum = new ExponentialSum([4, 3, 2, 1, 0], coefficients);
    const found = crossings(sum, 0, Infinity, 1);
    expect(found.map(({ direction }) => direction)).toEqual([-1, 0, 1]);
    [0.9, 0.5, 0.1].forEach((x, k) => expect(Math.exp(-found[k]!.time)).toBeCloseTo(x, 6));
  });

  it('tells a near miss from a touch and from two crossings', () => {
    const x = 0.4;
    const gap = 1e-9;
    const parabola = (constant: number) => new ExponentialSum([2, 1, 0], [1, -2 * x, x * x + constant]);
    expect(crossings(parabola(gap), 0, Infinity, 1)).toEqual([]);
    expect(crossings(parabola(-gap), 0, Infinity, 1).map(({ direction }) => direction)).toEqual([-1, 1]);
  });

  it('never reaches a limit that lies exactly on the level, however close the rates', () => {
    for (const ratio of [1.0001, 1.01, 1.1, 1.5, 2, 3, 10, 1000]) {
      for (const share of [0.5, 0.8, 0.9, 0.99, -0.5]) {
        for (const volts of [1, 570, 600, 12.345]) {
          // Its only root would be where e^−t = share·e^−ratio·t, at a negative time.
          const rise = new ExponentialSum([0, 1, ratio], [volts, -volts, volts * share]);
          expect(crossings(rise, volts, Infinity, volts)).toEqual([]);
          expect(crossings(rise.times(-1), -volts, Infinity, volts)).toEqual([]);
          expect(firstAtOrAbove(rise, volts, Infinity, volts)).toBeUndefined();
        }
      }
    }
  });

  it('reaches a level a little below the limit, and not one a little above', () => {
    const rise = new ExponentialSum([0, 2], [600, -600]);
    const found = crossings(rise, 600 * (1 - 1e-10), Infinity, 600);
    // e^−2t = 1e-10, known to the rounding of 600·(1 − 1e-10): 1e-16/1e-10 relative.
    expect(found).toHaveLength(1);
    expect(found[0]!.time).toBeCloseTo((10 * Math.LN10) / 2, 5);
    expect(crossings(rise, 600 * (1 + 1e-10), Infinity, 600)).toEqual([]);
  });

  it('comes to a level from the other side of a limit that lies on it', () => {
    // Overshoots the level, comes back, and ends on it: one crossing upwards.
    const sum = new ExponentialSum([0, 1, 5], [100, 50, -150]);
    const found = crossings(sum, 100, Infinity, 150);
    expect(found.map(({ direction }) => direction)).toEqual([1]);
    expect(found[0]!.time).toBeCloseTo(Math.log(3) / 4, 12);
  });

  it('a start on the level is a crossing at 0 in the direction it leaves', () => {
    expect(crossings(new ExponentialSum([0, 1], [1, -1]), 0, Infinity, 1)).toEqual([{ time: 0, direction: 1 }]);
    expect(crossings(new ExponentialSum([0, 1], [-1, 1]), 0, Infinity, 1)).toEqual([{ time: 0, direction: -1 }]);
    // A rounding away from it still is.
    expect(crossings(new ExponentialSum([0, 1], [1, -1 + 2e-16]), 0, Infinity, 1)).toEqual([{ time: 0, direction: 1 }]);
  });

  it('of a constant on the level, or off it, is nothing', () => {
    expect(crossings(ExponentialSum.constant(5), 5, Infinity, 5)).toEqual([]);
    expect(crossings(ExponentialSum.constant(5), 4, Infinity, 5)).toEqual([]);
  });

  it('follows a drift to the level', () => {
    const drift = new ExponentialSum([0, 3], [-40, 1], [0], [0], [2e-3]);
    const found = crossings(drift, 0, Infinity, 40);
    expect(found).toHaveLength(1);
    expect(found[0]!.time).toBeCloseTo(20_000, 9);
  });

  it('looks no further than asked', () => {
    const fall = new ExponentialSum([1], [600]);
    expect(crossings(fall, 60, 2.3, 600)).toEqual([]);
    expect(crossings(fall, 60, 2.31, 600)).toHaveLength(1);
    expect(crossings(fall, 60, 0, 600)).toEqual([]);
  });

  it('finds a root among rates twelve decades apart', () => {
    const sum = new ExponentialSum([1e6, 1e-6], [-1, 2]);
    // 2e^−1e-6t = 1.5 at ln(4/3)·1e6, and a first one where e^−1e6t = 0.5.
    const found = crossings(sum, 1.5, Infinity, 2);
    expect(found.map(({ direction }) => direction)).toEqual([1, -1]);
    expect(found[0]!.time / (Math.LN2 * 1e-6)).toBeCloseTo(1, 11);
    expect(found[1]!.time / (Math.log(4 / 3) * 1e6)).toBeCloseTo(1, 11);
  });
});

describe('crossings of signals whose terms cancel', () => {
  /** The last stage of n equal RC stages: in closed form the modes of a chain with one end held, the other free. */
  function lastStage(n: number): ExponentialSum {
    // λₖ = 4·sin²(θₖ/2), θₖ = (2k − 1)π/(2n + 1); shares (−1)ᵏ⁺¹·2·cot(θₖ/2)·cos(θₖ/2)/(2n + 1)… by the start at 0 and slope 0.
    const rates = [0];
    const coefficients = [1];
    for (let k = 1; k <= n; k += 1) {
      const theta = ((2 * k - 1) * Math.PI) / (2 * n + 1);
      const shape = (node: number) => Math.sin(node * theta);
      let norm = 0;
      let steady = 0;
      for (let node = 1; node <= n; node += 1) {
        norm += shape(node) ** 2;
        steady += shape(node);
      }
      rates.push(4 * Math.sin(theta / 2) ** 2);
      coefficients.push((-steady / norm) * shape(n));
    }
    return new ExponentialSum(rates, coefficients);
  }

  it.each([3, 6, 10, 30])('takes no longer for the slow start of the last of %d stages', (n) => {
    const rise = lastStage(n);
    // It starts like tⁿ: term by term nothing tells it from 0 for a long time.
    expect(Math.abs(rise.at(0))).toBeLessThan(1e-14);
    const before = performance.now();
    const low = crossings(rise, 1e-9, Infinity, 1);
    const high = crossings(rise, 0.95, Infinity, 1);
    const peaks = crossings(rise.derivative().derivative(), 0, Infinity, 1e-300);
    // Found in a few milliseconds; without cancellation inside the bounds it was minutes or for ever.
    expect(performance.now() - before).toBeLessThan(2000);
    expect([low, high].map((found) => found.map(({ direction }) => direction))).toEqual([[1], [1]]);
    expect(rise.at(low[0]!.time)).toBeCloseTo(1e-9, 13);
    expect(rise.at(high[0]!.time)).toBeCloseTo(0.95, 12);
    // The step response of a chain has one point of inflection; what rounding adds lies where it is still 0.
    const real = peaks.filter(({ time }) => rise.at(time) > 1e-12 && rise.at(time) < 1 - 1e-12);
    expect(real.map(({ direction }) => direction)).toEqual([-1]);
  });
});

describe('firstAtOrAbove', () => {
  it('is 0 at or above the level, the touch where the signal only touches, and nothing after a near miss', () => {
    const hump = (top: number) => new ExponentialSum([1, 2], [4 * top, -4 * top]);
    expect(firstAtOrAbove(new ExponentialSum([1], [2]), 2, Infinity, 2)).toBe(0);
    expect(firstAtOrAbove(hump(1), 1, Infinity, 1)).toBeCloseTo(Math.LN2, 6);
    expect(firstAtOrAbove(hump(1 - 1e-9), 1, Infinity, 1)).toBeUndefined();
  });
});
