import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BoundOutcome, type BoundSearch, findBound } from '../../src/limits/find-bound.js';

const range = { lowest: 1e-6, highest: 1e12 };

function search(
  bound: 'min' | 'max',
  demand: (value: number) => number,
  from: number,
  further: Pick<BoundSearch, 'model' | 'known'> = {},
) {
  let calls = 0;
  const outcome = findBound({
    bound,
    demand: (value) => {
      calls += 1;
      return demand(value);
    },
    start: { value: from, demand: demand(from) },
    ...further,
    ...range,
  });
  return { outcome, calls };
}

function valueOf(outcome: BoundOutcome): number {
  return outcome.kind === 'bound' ? outcome.value : Number.NaN;
}

const positive = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

describe('findBound', () => {
  it('finds the bound of any rising hyperbola in a handful of trials', () => {
    fc.assert(
      fc.property(
        positive,
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        positive,
        (root, offset, bend, from) => {
          // (a + b·x)/(1 + d·x) with value 1 at the root, a < 1, and a slope above zero.
          const d = bend / root;
          const b = (1 + bend - offset) / root;
          const { outcome, calls } = search('max', (x) => (offset + b * x) / (1 + d * x), from);
          expect(Math.abs(valueOf(outcome) / root - 1)).toBeLessThan(1e-10 * (1 + bend) ** 2);
          expect(calls).toBeLessThan(12);
        },
      ),
    );
  });

  it('finds the bound of a falling hyperbola, as a smallest value', () => {
    fc.assert(
      fc.property(positive, fc.double({ min: 0, max: 10, noNaN: true }), positive, (root, series, from) => {
        const { outcome } = search('min', (x) => (root * (1 + series)) / (x + series * root), from);
        expect(Math.abs(valueOf(outcome) / root - 1)).toBeLessThan(1e-9);
      }),
    );
  });

  it('finds a bound that is no hyperbola, up to where the demand is infinite', () => {
    // A rise into a load: −x·s·ln(1 − p/s), s = 1/(1 + x), never beyond x = 1/p − 1.
    const time = (x: number): number => {
      const share = 1 / (1 + x);
      return share <= 0.9 ? Infinity : -x * share * Math.log1p(-0.9 / share);
    };
    for (const allowed of [1e-4, 1e-3, 0.1, 0.2, 0.25]) {
      const { outcome } = search('max', (x) => time(x) / allowed, 1e3);
      expect(Math.abs(time(valueOf(outcome)) / allowed - 1)).toBeLessThan(1e-8);
    }
  });

  // A rise into a load of 1 Ω: −x·s·ln(1 − p/s), s = 1/(1 + x): it takes for ever from x = 1/p − 1 on. Textbook.
  const rise =
    (level: number) =>
    (x: number): number => {
      const share = 1 / (1 + x);
      return share <= level ? Infinity : -x * share * Math.log1p(-level / share);
    };

  it('finds a bound next to where the demand is infinite in a few trials, with a formula that knows where that is', () => {
    for (const allowed of [1, 2, 3]) {
      const demand = (x: number) => rise(0.9)(x) / allowed;
      const { outcome, calls } = search('max', demand, 0.03, { model: (x) => (1.1 + x) * demand(x) });
      const value = valueOf(outcome);
      expect(Math.abs(value / (1 / 0.9 - 1) - 1)).toBeLessThan(1e-3);
      expect(demand(value * (1 - 1e-9))).toBeLessThanOrEqual(1);
      expect(demand(value * (1 + 1e-9))).toBeGreaterThan(1);
      expect(calls).toBeLessThan(10);
    }
  });

  it('with a formula that gives the demand finds the bound at the first trial', () => {
    for (const allowed of [0.01, 0.1, 0.25, 0.5]) {
      const demand = (x: number) => rise(0.9)(x) / allowed;
      const { outcome, calls } = search('max', demand, 0.03, { model: demand });
      expect(Math.abs(demand(valueOf(outcome)) - 1)).toBeLessThan(1e-9);
      expect(calls).toBeLessThanOrEqual(1);
    }
  });

  it('with a formula that is a little off needs few trials, and finds the same', () => {
    for (const allowed of [0.01, 0.1, 0.25, 0.5]) {
      const demand = (x: number) => rise(0.9)(x) / allowed;
      const model = (x: number) => (1.1 * rise(0.9)(x * 1.000_001)) / allowed;
      const { outcome, calls } = search('max', demand, 0.03, { model });
      expect(demand(valueOf(outcome) * (1 - 1e-9))).toBeLessThanOrEqual(1);
      expect(demand(valueOf(outcome) * (1 + 1e-9))).toBeGreaterThan(1);
      expect(calls).toBeLessThanOrEqual(12);
    }
  });

  it('with a formula that has nothing to do with it still finds it', () => {
    for (const model of [(x: number) => 1 / x, () => 7, () => Infinity, (x: number) => 1e9 * x ** 3]) {
      const { outcome } = search('max', (x) => (0.2 + 3 * x) / (1 + x), 10, { model });
      expect(Math.abs(valueOf(outcome) / 0.4 - 1)).toBeLessThan(1e-9);
    }
  });

  it('with three places known finds a hyperbola’s bound at the first trial', () => {
    const demand = (x: number) => (0.2 + 3 * x) / (1 + x);
    const known = [1, 2].map((value) => ({ value, demand: demand(value) }));
    const { outcome, calls } = search('max', demand, 5, { known });
    expect(Math.abs(valueOf(outcome) / 0.4 - 1)).toBeLessThan(1e-10);
    expect(calls).toBe(1);
  });

  it('takes a place that is known to be the bound as it is', () => {
    for (const bound of ['min', 'max'] as const) {
      const demand = (x: number): number => (bound === 'max' ? x / 1000 : 1000 / x);
      const known = [700, 1000, 1400].map((value) => ({ value, demand: demand(value) }));
      expect(search(bound, demand, 900, { known })).toEqual({ outcome: { kind: 'bound', value: 1000 }, calls: 0 });
    }
  });

  it('leaves known places alone that do not fit a demand that rises', () => {
    // Holds again far beyond the bound, as the heat in a resistor does once it is small beside the rest of its loop.
    const demand = (x: number) => (x < 1e6 ? x / 7 : 0.1);
    const { outcome } = search('max', demand, 3, {
      known: [
        { value: 1e9, demand: 0.1 },
        { value: 10, demand: demand(10) },
      ],
    });
    expect(valueOf(outcome)).toBeCloseTo(7, 8);
  });

  it('finds the place of a step to the precision of its bracket', () => {
    const { outcome } = search('max', (x) => (x < 123.456 ? 0.5 : 2), 1);
    expect(Math.abs(valueOf(outcome) / 123.456 - 1)).toBeLessThan(1e-10);
  });

  it('says that no value hurts where the demand never gets to 1', () => {
    expect(search('max', () => 0, 5).outcome).toEqual({ kind: 'no-value-hurts' });
    expect(search('max', (x) => (0.9 * x) / (1 + x), 5).outcome).toEqual({ kind: 'no-value-hurts' });
    expect(search('min', (x) => 0.5 + 1e-9 / x, 5).outcome).not.toEqual({ kind: 'no-value-helps' });
  });

  it('says that no value helps where the demand is always above 1', () => {
    expect(search('max', () => Infinity, 5).outcome).toEqual({ kind: 'no-value-helps' });
    expect(search('max', (x) => 1.5 + x, 5).outcome).toEqual({ kind: 'no-value-helps' });
    expect(search('min', (x) => 1.5 + 1 / x, 5).outcome).toEqual({ kind: 'no-value-helps' });
  });

  it('takes a start on the bound for the bound, without a trial', () => {
    expect(search('max', (x) => x / 7, 7)).toEqual({ outcome: { kind: 'bound', value: 7 }, calls: 0 });
  });
});
