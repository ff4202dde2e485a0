import { describe, expect, it } from 'vitest';
import { E24, E96, preferredValues } from '../../src/circuit/e-series.js';
import { type OwnTolerance, preferredInside } from '../../src/limits/preferred-inside.js';

const exact: OwnTolerance = { upward: 0, downward: 0 };

/** IEC 60063, table of the E96 series, from memory. */
const E96_TABLE = [
  100, 102, 105, 107, 110, 113, 115, 118, 121, 124, 127, 130, 133, 137, 140, 143, 147, 150, 154, 158, 162, 165, 169,
  174, 178, 182, 187, 191, 196, 200, 205, 210, 215, 221, 226, 232, 237, 243, 249, 255, 261, 267, 274, 280, 287, 294,
  301, 309, 316, 324, 332, 340, 348, 357, 365, 374, 383, 392, 402, 412, 422, 432, 442, 453, 464, 475, 487, 499, 511,
  523, 536, 549, 562, 576, 590, 604, 619, 634, 649, 665, 681, 698, 715, 732, 750, 768, 787, 806, 825, 845, 866, 887,
  909, 931, 953, 976,
];

describe('the series', () => {
  it('E96 is the table of IEC 60063 over a decade', () => {
    expect(preferredValues(100, 999, 240, E96)).toEqual(E96_TABLE);
  });

  it('E96 holds exactly the doubles that the texts mean, in any decade', () => {
    expect(preferredValues(2.43e-4, 2.49e-4, 240, E96)).toEqual([2.43e-4, 2.49e-4]);
    expect(preferredValues(1.02e6, 1.05e6, 240, E96)).toEqual([1.02e6, 1.05e6]);
    expect(preferredValues(0.976, 1.02, 240, E96)).toEqual([0.976, 1, 1.02]);
  });

  // IEC 60063: E24 5 %, E96 1 %.
  it('carry their tolerances', () => {
    expect([E24.tolerance, E96.tolerance]).toEqual([0.05, 0.01]);
  });
});

describe('preferredInside', () => {
  it('counts the series’ own tolerance in, at both ends', () => {
    // 1000·0.95 = 950 and 1100·1.05 = 1155 are the ends themselves, 1.1·0.99 and 1.13·1.01 are well inside.
    expect(preferredInside({ above: 949, below: 1156 }, E24, exact).sort()).toEqual([1000, 1100]);
    expect(preferredInside({ above: 951, below: 1154 }, E24, exact)).toEqual([]);
    expect(preferredInside({ above: 1080, below: 1150 }, E96, exact).sort()).toEqual([1100, 1130]);
  });

  it('counts the part’s own tolerance where that is the wider one, each side by itself', () => {
    // 680·1.05 = 714 and 620·1.1 = 682, 680·1.1 = 748; 100·0.95 = 95 and 110·0.8 = 88.
    const below = (own: OwnTolerance) => Math.max(...preferredInside({ above: null, below: 738 }, E24, own));
    expect(below(exact)).toBe(680);
    expect(below({ upward: 0.1, downward: 0 })).toBe(620);
    expect(below({ upward: 0.01, downward: 0.5 })).toBe(680);
    const above = (own: OwnTolerance) => Math.min(...preferredInside({ above: 90, below: null }, E24, own));
    expect(above(exact)).toBe(100);
    expect(above({ upward: 0, downward: 0.2 })).toBe(120);
  });

  it('leaves out a value whose tolerance just touches a bound', () => {
    const touching = 1000 * (1 + E24.tolerance);
    expect(preferredInside({ above: null, below: touching }, E24, exact)).not.toContain(1000);
    expect(preferredInside({ above: null, below: touching * (1 + 1e-12) }, E24, exact)).toContain(1000);
  });

  it('puts the widest margin first, from a wide window too, and keeps to the count', () => {
    const wide = preferredInside({ above: 1, below: 1e8 }, E96, exact, 24);
    expect(wide).toHaveLength(24);
    // √(1·10⁸): the middle of the ratio scale.
    expect(wide[0]).toBe(1e4);
    const margin = (value: number): number => Math.min((value * 0.99) / 1, 1e8 / (value * 1.01));
    expect(wide.map(margin)).toEqual(wide.map(margin).sort((a, b) => b - a));
  });

  it('with one end open lists the decade next to the other; with both, nothing', () => {
    expect(preferredInside({ above: null, below: 1000 }, E24, exact)).toHaveLength(24);
    expect(Math.max(...preferredInside({ above: null, below: 1000 }, E24, exact))).toBe(910);
    expect(Math.min(...preferredInside({ above: 1000, below: null }, E24, exact))).toBe(1100);
    expect(preferredInside({ above: null, below: null }, E24, exact)).toEqual([]);
  });
});
