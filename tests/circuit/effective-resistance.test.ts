import fc from 'fast-check';
import { lusolve } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { conductsAt, effectiveResistance } from '../../src/circuit/index.js';
import { network } from './network.js';
import './seed.js';

const closed = conductsAt({ open: [] });
const between = (resistors: Parameters<typeof network>[0], a = 'a', b = 'b') =>
  effectiveResistance(network(resistors), a, b, closed);

/** Rounding of a handful of sums and quotients; the method cancels nothing. */
const RELATIVE = 1e-12;

/** The cube's edges join corners whose three-bit names differ in one bit. */
const cube = [...Array(8).keys()].flatMap((corner) =>
  [1, 2, 4].filter((bit) => (corner & bit) === 0).map((bit) => [`n${corner}`, `n${corner | bit}`, 1] as const),
);

describe('effectiveResistance of', () => {
  test.each<[string, number, number]>([
    // Textbook sums, worked by hand.
    [
      '1, 6 and 13 Ω in series',
      between([
        ['a', 'x', 1],
        ['x', 'y', 6],
        ['y', 'b', 13],
      ]),
      20,
    ],
    [
      '1, 6 and 13 Ω in parallel',
      between([
        ['a', 'b', 1],
        ['a', 'b', 6],
        ['b', 'a', 13],
      ]),
      78 / 97,
    ],
    [
      '1 Ω in series with 6 and 13 Ω in parallel',
      between([
        ['a', 'x', 1],
        ['x', 'b', 6],
        ['b', 'x', 13],
      ]),
      1 + 78 / 19,
    ],
    [
      'a balanced bridge: the bridge carries nothing',
      between([
        ['a', 'c', 1],
        ['a', 'd', 2],
        ['c', 'd', 7],
        ['c', 'b', 3],
        ['d', 'b', 6],
      ]),
      8 / 3,
    ],
    // By hand with the delta (1, 2, 3 Ω) turned into a star (1/3, 1/2, 1 Ω): 1/3 + 4.5 ∥ 6.
    [
      'an unbalanced Wheatstone bridge',
      between([
        ['a', 'c', 1],
        ['a', 'd', 2],
        ['c', 'd', 3],
        ['c', 'b', 4],
        ['d', 'b', 5],
      ]),
      61 / 21,
    ],
    // The cube of 1 Ω edges, a textbook exercise (from memory).
    ['a cube across an edge', between(cube, 'n0', 'n1'), 7 / 12],
    ['a cube across a face', between(cube, 'n0', 'n3'), 3 / 4],
    ['a cube across the body', between(cube, 'n0', 'n7'), 5 / 6],
    [
      '1 kΩ beside 1 GΩ, decades apart',
      between([
        ['a', 'b', 1e3],
        ['a', 'b', 1e9],
      ]),
      1e9 / (1e6 + 1),
    ],
    [
      'a dead end, which adds nothing',
      between([
        ['a', 'b', 5],
        ['b', 'x', 3],
        ['x', 'y', 3],
      ]),
      5,
    ],
    [
      'a part joined to itself by 0 Ω',
      between([
        ['a', 'b', 5],
        ['b', 'x', 0],
        ['x', 'b', 3],
      ]),
      5,
    ],
    [
      'a bridge whose diagonal is 0 Ω',
      between([
        ['a', 'c', 2],
        ['a', 'd', 2],
        ['c', 'd', 0],
        ['c', 'b', 4],
        ['d', 'b', 4],
      ]),
      3,
    ],
  ])('%s', (_what, computed, expected) => {
    expect(Math.abs(computed - expected)).toBeLessThanOrEqual(RELATIVE * expected);
  });

  test('nodes joined by 0 Ω is exactly 0, round a resistance too', () => {
    expect(
      between([
        ['a', 'x', 0],
        ['x', 'b', 0],
        ['a', 'b', 5],
      ]),
    ).toBe(0);
    expect(between([['a', 'b', 5]], 'a', 'a')).toBe(0);
  });

  test('a resistance too small to have a reciprocal is exactly 0', () => {
    expect(between([['a', 'b', 1e-320]])).toBe(0);
  });

  test('nodes that nothing joins is Infinity, unknown nodes too', () => {
    expect(
      between([
        ['a', 'x', 5],
        ['b', 'y', 5],
      ]),
    ).toBe(Number.POSITIVE_INFINITY);
    expect(between([['a', 'b', 5]], 'a', 'nowhere')).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('effectiveResistance, for any network,', () => {
  const resistors = fc.array(
    fc
      .tuple(fc.nat(5), fc.nat(5), fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 100, noNaN: true })))
      .filter(([from, to]) => from !== to)
      .map(([from, to, ohms]) => [`n${from}`, `n${to}`, ohms] as const),
    { minLength: 1, maxLength: 12 },
  );

  test('is the same from either end', () => {
    fc.assert(
      fc.property(resistors, (parts) => {
        const forth = between(parts, 'n0', 'n1');
        const back = between(parts, 'n1', 'n0');
        expect(forth === back || Math.abs(forth - back) <= RELATIVE * forth).toBe(true);
      }),
    );
  });

  // Another method altogether: 1 A into one node and out of the other, node voltages by mathjs's LU decomposition.
  test('agrees with the node voltages of mathjs', () => {
    const connected = resistors.map((parts) => [
      ...parts.map(([from, to, ohms]) => [from, to, ohms === 0 ? 1 : ohms] as const),
      ...[0, 1, 2, 3, 4].map((node) => [`n${node}`, `n${node + 1}`, 10] as const),
    ]);
    fc.assert(
      fc.property(connected, (parts) => {
        const laplacian = Array.from({ length: 5 }, () => new Array<number>(5).fill(0));
        const add = (row: number, column: number, value: number) => {
          // n1 is the reference and has no row.
          const [i, j] = [row, column].map((node) => (node > 1 ? node - 1 : node));
          if (row !== 1 && column !== 1) laplacian[i!]![j!]! += value;
        };
        for (const [from, to, ohms] of parts) {
          const [i, j] = [Number(from.slice(1)), Number(to.slice(1))];
          add(i, i, 1 / ohms);
          add(j, j, 1 / ohms);
          add(i, j, -1 / ohms);
          add(j, i, -1 / ohms);
        }
        const voltages = lusolve(laplacian, [[1], [0], [0], [0], [0]]) as number[][];
        // LU cancels where this method does not; six well-scaled nodes cost it few digits.
        expect(between(parts, 'n0', 'n1') / voltages[0]![0]!).toBeCloseTo(1, 9);
      }),
    );
  });

  test('never grows when a resistance is added in parallel (Rayleigh)', () => {
    fc.assert(
      fc.property(resistors, fc.double({ min: 0.1, max: 100, noNaN: true }), (parts, ohms) => {
        const more = [...parts, ['n2', 'n3', ohms] as const];
        expect(between(more, 'n0', 'n1')).toBeLessThanOrEqual(between(parts, 'n0', 'n1') * (1 + RELATIVE));
      }),
    );
  });
});
