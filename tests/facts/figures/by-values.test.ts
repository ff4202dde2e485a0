import { describe, expect, it } from 'vitest';
import { ByValues } from '../../../src/facts/figures/by-values.js';

describe('what was computed at a set of values', () => {
  it('is found again by the values, not by the array, and is not shared by others', () => {
    const known = new ByValues<number>();
    let made = 0;
    const make = () => (made += 1);
    expect(known.get([1, 2], make)).toBe(1);
    expect(known.get([1, 2], make)).toBe(1);
    expect(known.get([2, 1], make)).toBe(2);
    expect(known.get([1, 2 + 4e-16], make)).toBe(3);
  });

  it('is made from a copy, so that a search may go on with its array', () => {
    const known = new ByValues<readonly number[]>();
    const values = [1, 2];
    const kept = known.get(values, (own) => own);
    values[0] = 5;
    expect(kept).toEqual([1, 2]);
    expect(known.get(values, (own) => own)).toEqual([5, 2]);
  });

  it('is still there after the single moves of as many parts as a large car has', () => {
    const known = new ByValues<number>();
    let made = 0;
    const make = () => (made += 1);
    const parts = Array.from({ length: 40 }, (_, k) => k);
    for (const figure of ['one', 'another'])
      for (const part of parts)
        expect(
          known.get(
            parts.map((k) => (k === part ? 2 : 1)),
            make,
          ),
          figure,
        ).toBe(part + 1);
  });
});
