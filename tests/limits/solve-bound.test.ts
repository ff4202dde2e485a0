import { describe, expect, it } from 'vitest';
import type { BoundedPart } from '../../src/limits/bounded-part.js';
import type { Demand } from '../../src/limits/demand.js';
import { solveBound } from '../../src/limits/solve-bound.js';

const part: BoundedPart = { id: 'r', unit: 'Ω', present: 100, upward: 0, downward: 0 };

/**
 * A demand that is searched for: the largest of several corners, each a plain function of the value. What the search finds is counted.
 */
function searched(corners: readonly ((value: number) => number)[], more: Partial<Demand> = {}) {
  let searches = 0;
  const worstAt = (value: number) => corners.reduce((worst, each) => (each(value) > worst(value) ? each : worst));
  const at = (value: number): number => {
    searches += 1;
    return worstAt(value)(value);
  };
  const demand: Demand = {
    present: worstAt(100)(100),
    at,
    atCorner: worstAt(100),
    cornerFrom: worstAt,
    ranged: true,
    ...more,
  };
  return { demand, count: () => searches };
}

function valueOf(demands: readonly Demand[], bound: 'min' | 'max' = 'max'): number {
  const { outcome } = solveBound(bound, part, demands);
  if (outcome.kind !== 'bound') throw new Error(outcome.kind);
  return outcome.value;
}

describe('the bound of what is searched for', () => {
  it('is that of the corner which is worst there, not of that which is worst now', () => {
    // Equal at 125; from there on the second is worse and reaches 1 at 200 instead of 250.
    const { demand, count } = searched([(x) => x / 250, (x) => 0.5 + (x - 125) / 150]);
    expect(valueOf([demand]) / 200 - 1).toBeCloseTo(0, 10);
    expect(count()).toBeLessThan(6);
  });

  it('is found at a jump without halving towards it', () => {
    // A voltage that comes back up to its limit: next to nothing up to there, far too long from there on.
    const jump = (x: number): number => (x <= 300 ? 0.2 : 3);
    const { demand, count } = searched([jump]);
    expect(valueOf([demand]) / 300 - 1).toBeCloseTo(0, 9);
    expect(count()).toBeLessThan(6);
  });

  it('takes in what a search is given to have missed, in proportion', () => {
    const { demand, count } = searched([(x) => x / 400], {});
    const withMargin: Demand = { ...demand, at: (value) => 1.25 * demand.at(value), present: 1.25 * demand.present };
    expect(valueOf([withMargin]) / 320 - 1).toBeCloseTo(0, 10);
    expect(count()).toBeLessThan(6);
  });

  it('asks the tightest of several first, and of the others only once', () => {
    const loose = [searched([(x) => 0.9 + (x - 100) / 5000]), searched([(x) => 0.8 + (x - 100) / 4000])];
    const tight = searched([(x) => 0.1 + (0.9 * (x - 100)) / 20]);
    expect(valueOf([...loose.map(({ demand }) => demand), tight.demand]) / 120 - 1).toBeCloseTo(0, 10);
    for (const { count } of loose) expect(count()).toBeLessThanOrEqual(1);
  });

  it('is found next to a value that is kept though far smaller ones are kept no more', () => {
    // What bounds a search gets useless at small values: there nothing is known to hold.
    const bathtub = (x: number): number => (x < 1 || x >= 150 ? Number.POSITIVE_INFINITY : 0.1 + x / 1000);
    const { demand } = searched([bathtub]);
    const value = valueOf([{ ...demand, model: (x) => (x >= 155 ? Number.POSITIVE_INFINITY : x / 155) }]);
    expect(value).toBeLessThan(150);
    expect(value).toBeGreaterThan(150 * (1 - 1e-8));
  });
});
