import { describe, expect, it } from 'vitest';
import { treePath } from '../../src/transient/tree-path.js';

const edge = (element: number, a: number, b: number, tree = true) => ({ element, a, b, tree });

describe('the way between two nodes along ideal connections', () => {
  const edges = [edge(10, 0, 1), edge(11, 2, 1), edge(12, 2, 3), edge(13, 0, 3, false), edge(14, 5, 6)];

  it('leads over the tree, whichever way its edges are drawn, and never over the edge that closes a loop', () => {
    expect(treePath(edges, 0, 3)).toEqual([10, 11, 12]);
    expect(treePath(edges, 3, 0)).toEqual([12, 11, 10]);
  });

  it('is empty from a node to itself and between parts that nothing joins', () => {
    expect(treePath(edges, 2, 2)).toEqual([]);
    expect(treePath(edges, 0, 5)).toEqual([]);
  });
});
