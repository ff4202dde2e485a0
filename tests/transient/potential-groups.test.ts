import { describe, expect, it } from 'vitest';
import { PotentialGroups } from '../../src/transient/potential-groups.js';
import { random } from './random.js';

describe('PotentialGroups', () => {
  it('keeps every difference that was tied, in any order of ties', () => {
    const next = random(81);
    for (let round = 0; round < 30; round += 1) {
      const size = 3 + Math.floor(next() * 8);
      const volts = Array.from({ length: size }, () => Math.round(800 * (next() - 0.5)));
      const groups = new PotentialGroups(size);
      for (let k = 0; k < 2 * size; k += 1) {
        const a = Math.floor(next() * size);
        const b = Math.floor(next() * size);
        // Whole volts add exactly.
        expect(groups.tie(k, a, b, volts[b]! - volts[a]!)).toBe(0);
      }
      for (let a = 0; a < size; a += 1) {
        for (let b = 0; b < size; b += 1) {
          if (groups.find(a) === groups.find(b))
            expect(groups.offset(b) - groups.offset(a)).toBe(volts[b]! - volts[a]!);
        }
      }
    }
  });

  it('says by how much a loop contradicts itself', () => {
    const groups = new PotentialGroups(3);
    groups.tie(0, 0, 1, 400);
    groups.tie(1, 1, 2, -100);
    expect(groups.tie(2, 0, 2, 290)).toBe(10);
    expect(groups.edges.map(({ tree }) => tree)).toEqual([true, true, false]);
  });

  it('finds the way through the tree, and none where there is none', () => {
    const groups = new PotentialGroups(5);
    groups.tie(10, 0, 1, 0);
    groups.tie(11, 2, 1, 0);
    groups.tie(12, 2, 3, 0);
    groups.tie(13, 3, 0, 0);
    expect(groups.path(0, 3)).toEqual([10, 11, 12]);
    expect(groups.path(0, 4)).toEqual([]);
    expect(groups.path(2, 2)).toEqual([]);
  });
});
