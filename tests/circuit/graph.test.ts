import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  conductsAt,
  type Element,
  leastResistancePath,
  reachable,
  type ResolvedCircuit,
} from '../../src/circuit/index.js';
import { network } from './network.js';
import './seed.js';

const closed = conductsAt({ open: [] });

describe('leastResistancePath', () => {
  test('takes the way of least sum, not of fewest elements', () => {
    const circuit = network([
      ['a', 'b', 10, 'long'],
      ['a', 'x', 2, 'one'],
      ['x', 'b', 3, 'two'],
    ]);
    expect(leastResistancePath(circuit, 'a', 'b', closed)).toEqual({
      elements: ['one', 'two'],
      nodes: ['a', 'x', 'b'],
      resistance: 5,
    });
  });

  test('of equal sums takes the one with fewer elements', () => {
    const circuit = network([
      ['a', 'x', 2, 'a1'],
      ['x', 'b', 3, 'a2'],
      ['a', 'b', 5, 'z'],
    ]);
    expect(leastResistancePath(circuit, 'a', 'b', closed)?.elements).toEqual(['z']);
  });

  test('of equal sums and lengths takes the ids that come first, from the start on', () => {
    const circuit = network([
      ['a', 'x', 1, 'q'],
      ['x', 'b', 1, 'a'],
      ['a', 'y', 1, 'p'],
      ['y', 'b', 1, 'z'],
    ]);
    expect(leastResistancePath(circuit, 'a', 'b', closed)?.elements).toEqual(['p', 'z']);
    expect(leastResistancePath(circuit, 'b', 'a', closed)?.elements).toEqual(['a', 'q']);
  });

  test('from a node to itself is empty', () => {
    const circuit = network([['a', 'b', 1]]);
    expect(leastResistancePath(circuit, 'a', 'a', closed)).toEqual({ elements: [], nodes: ['a'], resistance: 0 });
  });

  test('is undefined where nothing joins the nodes or a node is unknown', () => {
    const circuit = network([
      ['a', 'b', 1],
      ['c', 'd', 1],
    ]);
    expect(leastResistancePath(circuit, 'a', 'c', closed)).toBeUndefined();
    expect(leastResistancePath(circuit, 'a', 'nowhere', closed)).toBeUndefined();
    expect(leastResistancePath(circuit, 'nowhere', 'a', closed)).toBeUndefined();
  });

  test('passes nothing whose resistance is no finite number at or above zero', () => {
    const circuit = network([['a', 'b', 1]]);
    for (const value of [Number.POSITIVE_INFINITY, Number.NaN, -1]) {
      expect(leastResistancePath(circuit, 'a', 'b', () => value)).toBeUndefined();
    }
  });
});

/** Every simple path, by walking them all: slow, and too plain to be wrong in the same way. */
function allPaths(
  circuit: ResolvedCircuit,
  from: string,
  to: string,
): Array<{ elements: string[]; resistance: number }> {
  const found: Array<{ elements: string[]; resistance: number }> = [];
  const walk = (node: string, seen: string[], elements: Element[], resistance: number): void => {
    if (node === to) found.push({ elements: elements.map(({ id }) => id), resistance });
    for (const element of circuit.elements) {
      const ohms = closed(element);
      const [a, b] = element.nodes;
      const next = a === node ? b : b === node ? a : undefined;
      if (ohms === undefined || next === undefined || seen.includes(next)) continue;
      walk(next, [...seen, next], [...elements, element], resistance + ohms);
    }
  };
  walk(from, [from], [], 0);
  return found;
}

test('reachable gives the best of all paths to every node, and no other node', () => {
  // Whole numbers, so that sums are exact and ties happen.
  const resistors = fc.array(
    fc
      .tuple(fc.nat(4), fc.nat(4), fc.nat(3))
      .filter(([from, to]) => from !== to)
      .map(([from, to, ohms]) => [`n${from}`, `n${to}`, ohms] as const),
    { minLength: 1, maxLength: 8 },
  );
  fc.assert(
    fc.property(resistors, (parts) => {
      const circuit = network([['n0', 'n1', 3], ...parts]);
      const paths = reachable(circuit, 'n0', closed);
      for (const node of circuit.nodes) {
        const [best] = allPaths(circuit, 'n0', node).sort(
          (a, b) =>
            a.resistance - b.resistance ||
            a.elements.length - b.elements.length ||
            (a.elements.join('\n') < b.elements.join('\n') ? -1 : 1),
        );
        const path = paths.get(node);
        expect(path && { elements: path.elements, resistance: path.resistance }).toEqual(best);
        if (path !== undefined) {
          expect(path.nodes).toHaveLength(path.elements.length + 1);
          expect([path.nodes[0], path.nodes.at(-1)]).toEqual(['n0', node]);
        }
      }
    }),
  );
});

test('reachable from an unknown node is empty', () => {
  expect(reachable(network([['a', 'b', 1]]), 'nowhere', closed).size).toBe(0);
});
