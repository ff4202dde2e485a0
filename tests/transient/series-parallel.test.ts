import { describe, expect, it } from 'vitest';
import { type GraphEdge, isSeriesParallel } from '../../src/transient/series-parallel.js';
import { pick, random } from './random.js';

const edges = (...pairs: ReadonlyArray<readonly [number, number]>): GraphEdge[] => pairs.map(([a, b]) => ({ a, b }));
const shuffled = <T>(next: () => number, items: readonly T[]): T[] =>
  items
    .map((item) => [next(), item] as const)
    .sort(([x], [y]) => x - y)
    .map(([, item]) => item);

describe('isSeriesParallel', () => {
  it('is true of whatever grows by series, parallel and dangling edges', () => {
    const next = random(101);
    for (let round = 0; round < 60; round += 1) {
      const all = edges([0, 1]);
      let nodes = 2;
      for (let k = 0; k < 12; k += 1) {
        const edge = pick(next, all);
        const way = next();
        if (way < 0.4) all.push({ a: edge.b, b: edge.a });
        else if (way < 0.8) {
          all.splice(all.indexOf(edge), 1, { a: edge.a, b: nodes }, { a: nodes, b: edge.b });
          nodes += 1;
        } else {
          all.push({ a: edge.a, b: nodes });
          nodes += 1;
        }
      }
      expect(isSeriesParallel(shuffled(next, all))).toBe(true);
    }
  });

  it('is false of the complete graph of four nodes, however subdivided (Duffin 1965)', () => {
    const next = random(102);
    for (let round = 0; round < 30; round += 1) {
      const all = edges([0, 1], [0, 2], [0, 3], [1, 2], [1, 3], [2, 3]);
      let nodes = 4;
      for (let k = 0; k < 6; k += 1) {
        const edge = pick(next, all);
        all.splice(all.indexOf(edge), 1, { a: edge.a, b: nodes }, { a: nodes, b: edge.b });
        nodes += 1;
        if (next() < 0.5) all.push({ ...pick(next, all) });
      }
      expect(isSeriesParallel(shuffled(next, all))).toBe(false);
    }
  });

  it('is true of a Wheatstone bridge looked at from outside, false once a branch closes over the bridge', () => {
    const bridge = edges([0, 1], [0, 2], [1, 2], [1, 3], [2, 3]);
    expect(isSeriesParallel(bridge)).toBe(true);
    expect(isSeriesParallel([...bridge, { a: 0, b: 3 }])).toBe(false);
  });

  it('is true of nothing, of one loop, and of two blocks', () => {
    expect(isSeriesParallel([])).toBe(true);
    expect(isSeriesParallel(edges([4, 4]))).toBe(true);
    expect(isSeriesParallel(edges([0, 1], [1, 2], [2, 0], [5, 6], [6, 7], [7, 5]))).toBe(true);
  });
});
