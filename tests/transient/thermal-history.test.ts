import { describe, expect, it } from 'vitest';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import type { HeatPath } from '../../src/transient/heat-path.js';
import type { Piece } from '../../src/transient/piecewise.js';
import { type Pulses, ThermalHistory } from '../../src/transient/thermal-history.js';
import { random } from './random.js';

/** 2 K/W, 60 J/K: a time constant of 120 s. */
const path: HeatPath = { resistance: 2, capacitance: 60, ohms: 100 };
const TAU = 120;

const lasting = (signal: ExponentialSum, end = Infinity): Piece[] => [{ start: 0, end, signal }];
const held = (amperes: number): Piece[] => lasting(ExponentialSum.constant(amperes));
const fading = (amperes: number, rate: number): Piece[] => lasting(new ExponentialSum([rate], [amperes]));
const single = (current: readonly Piece[], until = Infinity): Pulses => ({
  current,
  until,
  count: 1,
  interval: Infinity,
});
const row = (current: readonly Piece[], until: number, count: number, interval: number): Pulses => ({
  current,
  until,
  count,
  interval,
});
const history = (...rows: Pulses[]) => new ThermalHistory(path, rows);

/** Nothing is sampled in the source; here the peak is sought by brute force between two instants. */
function highest(riseAt: (time: number) => number, from: number, to: number, points = 4000): number {
  let best = 0;
  for (let k = 0; k <= points; k += 1) best = Math.max(best, riseAt(from + ((to - from) * k) / points));
  return best;
}

// Source: first-order heating, textbook: θ = P·R·(1 − e^(−t/RC)) in constant power, θ₀·e^(−t/RC) without any.
describe('a single pulse', () => {
  it('of constant power heats as a first-order system and then cools', () => {
    const one = history(single(held(1), 60));
    for (const t of [0, 1e-6, 1, 30, 60]) expect(one.riseAt(t)).toBeCloseTo(-200 * Math.expm1(-t / TAU), 11);
    const top = -200 * Math.expm1(-0.5);
    expect(one.riseAt(60 + TAU)).toBeCloseTo(top * Math.exp(-1), 11);
    // The same, the pause stated as a piece of its own.
    const pieces = [...lasting(ExponentialSum.constant(1), 60), { ...held(0)[0]!, start: 60 }];
    expect(history(single(pieces)).riseAt(60 + TAU)).toBeCloseTo(top * Math.exp(-1), 11);
    expect(one.peak()).toBeCloseTo(top, 11);
  });

  it('left on comes to power times thermal resistance, and never above', () => {
    const one = history(single(held(1.5)));
    expect(one.peak()).toBeCloseTo(1.5 ** 2 * 100 * 2, 10);
    expect(one.riseAt(1e4)).toBeCloseTo(450, 9);
  });

  // A mass driven by one exponential is a chain of two of them: e^(−at) − e^(−bt) has its maximum at ln(b/a)/(b − a).
  it.each([0.01, 0.4, 2, 1e4])('that fades at %d per s is hottest at ln(2λτ)/(2λ − 1/τ)', (rate) => {
    const at = Math.log(2 * rate * TAU) / (2 * rate - 1 / TAU);
    const top = ((100 / 60) * (Math.exp(-at / TAU) - Math.exp(-2 * rate * at))) / (2 * rate - 1 / TAU);
    const one = history(single(fading(1, rate)));
    expect(one.peak() / top).toBeCloseTo(1, 12);
    for (const t of [0.1 * at, at, 10 * at]) {
      const then = ((100 / 60) * (Math.exp(-t / TAU) - Math.exp(-2 * rate * t))) / (2 * rate - 1 / TAU);
      expect(one.riseAt(t) / then).toBeCloseTo(1, 12);
    }
  });

  it('whose power fades as fast as the resistor cools is hottest after one time constant', () => {
    expect(history(single(fading(1, 1 / (2 * TAU)))).peak()).toBeCloseTo((100 / 60) * TAU * Math.exp(-1), 11);
  });

  it('that overshoots what it settles at shows the overshoot', () => {
    // 2 A that fade within a quarter of an hour to 0.1 A: brute force finds the top between, the limit is 2 K.
    const one = history(single(lasting(new ExponentialSum([0, 0.004], [0.1, 1.9]))));
    expect(one.riseAt(1e5)).toBeCloseTo(2, 9);
    const brute = highest((t) => one.riseAt(t), 0, 1000);
    expect(brute).toBeGreaterThan(100);
    expect(one.peak()).toBeGreaterThanOrEqual(brute);
    expect(one.peak() / brute).toBeCloseTo(1, 6);
  });

  it('that settles from below has its limit for a peak', () => {
    const one = history(single(lasting(new ExponentialSum([0, 0.5], [1, -1]))));
    expect(one.peak()).toBeCloseTo(200, 9);
  });

  it('that never ends to grow is hot without limit', () => {
    expect(history(single(lasting(new ExponentialSum([], [], [0], [0], [0.01])))).peak()).toBe(Infinity);
  });

  it('of a drift or of nearly equal rates is that of its integral', () => {
    // i = 0.01·t for 50 s: θ = R/C·∫ (0.01 s)²·e^(−(t−s)/τ) ds = R/C·1e-4·(τt² − 2τ²t + 2τ³(1 − e^(−t/τ))).
    const t = 50;
    const integral = TAU * t * t - 2 * TAU ** 2 * t - 2 * TAU ** 3 * Math.expm1(-t / TAU);
    const drift = history(single(lasting(new ExponentialSum([], [], [0], [0], [0.01])), t));
    expect(drift.peak()).toBeCloseTo((100 / 60) * 1e-4 * integral, 10);
    const nearly = history(single(lasting(new ExponentialSum([], [], [1e-7], [2e-7], [0.01])), t));
    expect(nearly.peak() / drift.peak()).toBeCloseTo(1, 4);
  });

  it('is the same whether its driven modes are taken apart or not', () => {
    // 1 A·(1 − e^(−0.3t)) written as a driven mode and as two exponentials, which lose digits where 0.3·t is small.
    const apart = new ExponentialSum([0, 0.3], [1, -1]);
    const driven = new ExponentialSum([], [], [0.3], [0], [0.3]);
    for (const until of [0.03, 0.05, 5, 500, Infinity])
      expect(
        history(single(lasting(driven), until)).peak() / history(single(lasting(apart), until)).peak(),
      ).toBeCloseTo(1, 9);
  });

  it('without current stays at the ambient', () => {
    expect(history(single(held(0))).peak()).toBe(0);
    expect(history(single([{ start: 0, end: Infinity, signal: undefined }])).peak()).toBe(0);
    expect(history().peak()).toBe(0);
    expect(history().riseAt(3)).toBe(0);
  });
});

// Source: the geometric sum; θₙ = h·(1 − qⁿ)/(1 − q), q = e^(−Δ/RC), and h/(1 − q) for ever.
describe('a row of pulses', () => {
  const top = -200 * Math.expm1(-10 / TAU);
  const q = Math.exp(-60 / TAU);

  it.each([1, 2, 3, 10])('of %d is hottest at the end of the last', (count) => {
    expect(history(row(held(1), 10, count, 60)).peak()).toBeCloseTo((top * (1 - q ** count)) / (1 - q), 10);
  });

  it('without end comes to the limit of the sum', () => {
    const endless = history(row(held(1), 10, Infinity, 60));
    expect(endless.peak()).toBeCloseTo(top / (1 - q), 10);
    expect(endless.riseAt(60 * 400 + 10)).toBeCloseTo(top / (1 - q), 9);
    expect(history(row(held(1), 10, 1e6, 60)).peak()).toBeCloseTo(endless.peak(), 10);
  });

  it('back to back is one long pulse', () => {
    expect(history(row(held(1), 5, 4, 5)).peak()).toBeCloseTo(-200 * Math.expm1(-20 / TAU), 10);
    expect(history(row(held(1), 5, Infinity, 5)).peak()).toBeCloseTo(200, 10);
  });

  it('longer than its interval is cut where the next begins', () => {
    expect(history(row(held(1), 90, 3, 30)).peak()).toBeCloseTo(-200 * Math.expm1(-90 / TAU), 10);
  });

  it('follows pulse for pulse what the same pulses one by one give', () => {
    const pulse = lasting(new ExponentialSum([0, 0.8, 30], [0.2, 1.4, -0.6]));
    const many = history(row(pulse, 4, 5, 7));
    const oneByOne = history(...Array.from({ length: 5 }, () => row(pulse, 4, 1, 7)));
    for (let t = 0; t <= 60; t += 0.31) expect(many.riseAt(t)).toBeCloseTo(oneByOne.riseAt(t), 10);
    expect(many.peak()).toBeCloseTo(oneByOne.peak(), 10);
  });

  it('of small pulses after a large one is hottest at the large one', () => {
    const rows = history(row(held(3), 30, 1, 30), row(held(0.1), 5, Infinity, 20));
    expect(rows.peak()).toBeCloseTo(-1800 * Math.expm1(-30 / TAU), 10);
    expect(rows.riseAt(1e5)).toBeLessThan(2);
  });

  it('goes on from where the row before it ended, and its steps meet', () => {
    const rows = history(row(fading(2, 0.5), 8, 3, 10), row(held(1), 2, 4, 6), single(fading(1, 0.2)));
    for (const edge of [8, 10, 20, 30, 32, 36, 54])
      expect(rows.riseAt(edge * (1 - 1e-13))).toBeCloseTo(rows.riseAt(edge * (1 + 1e-13)), 9);
  });

  it('in no time is nothing', () => {
    expect(history(row(held(1), 10, 3, 0)).peak()).toBe(0);
    expect(history(row(held(1), 10, Infinity, 0)).peak()).toBe(0);
  });

  it('has nothing after it where it has no end', () => {
    expect(() => history(row(held(1), 1, Infinity, 2), single(held(1)))).toThrow(RangeError);
  });
});

describe('the peak of any current', () => {
  // Sums of up to five exponentials of either sign over six decades, so that the power turns several times.
  it.each(Array.from({ length: 60 }, (_, k) => k))(
    'is no less than anything between and is reached (seed %d)',
    (seed) => {
      const next = random(900 + seed);
      const terms = 1 + Math.floor(next() * 5);
      const rates = Array.from({ length: terms }, () => (next() < 0.15 ? 0 : 10 ** (next() * 6 - 4)));
      const signal = new ExponentialSum(
        rates,
        rates.map(() => next() * 4 - 2),
        [10 ** (next() * 4 - 3)],
        [next() < 0.5 ? 0 : 10 ** (next() * 4 - 3)],
        [next() - 0.5],
      );
      const until = 10 ** (next() * 5 - 1);
      const interval = until * (1 + next());
      const count = 1 + Math.floor(next() * 4);
      const rows = history(row(lasting(signal), until, count, interval));
      // Ever finer around the best instant: a grid by decades first, since the rates are spread over decades.
      let [low, high] = [0, until];
      let brute = 0;
      for (let k = 0; k < count; k += 1) {
        const at = (t: number) => rows.riseAt(k * interval + t);
        let best = 0;
        const grid = Array.from({ length: 700 }, (_, j) => until * 10 ** (-j / 100));
        for (const t of grid) if (at(t) > at(best)) best = t;
        [low, high] = [best / 1.03, Math.min(until, best * 1.03)];
        brute = Math.max(brute, highest(at, low, high, 400));
      }
      expect(rows.peak()).toBeGreaterThanOrEqual(brute * (1 - 1e-10));
      expect(brute).toBeGreaterThan(rows.peak() * (1 - 1e-6));
    },
  );
});
