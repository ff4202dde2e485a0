import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsBetween } from '../../../src/facts/topology/parts-between.js';
import { type WireNode, type WirePart, wiring } from '../../../src/facts/topology/wiring.js';
import { accumulator, circuitOf, resistor } from './fixtures.js';

/** Random resistor networks on a few nodes; the accumulator is only there because a circuit needs one. */
const networks = fc
  .array(
    fc
      .tuple(fc.nat(6), fc.nat(6), fc.integer({ min: 1, max: 50 }))
      .filter(([a, b]) => a !== b)
      .map(([a, b, ohms]) => [`n${String(a)}`, `n${String(b)}`, 100 * ohms] as const),
    { minLength: 1, maxLength: 11 },
  )
  .map((edges) =>
    circuitOf(
      [
        accumulator('acc', ['p', 'n']),
        ...edges.map(([a, b, ohms], index) => resistor(`r${String(index)}`, [a, b], ohms)),
      ],
      { link: ['p', 'n'] },
    ),
  );

const ohms = ({ element }: WirePart): number => (element.kind === 'resistor' ? element.resistance.nominal : Infinity);

/** Every path that visits no node twice, by plain enumeration. */
function everyPath(from: WireNode, to: WireNode, visited: readonly WireNode[] = [from]): WirePart[][] {
  if (from === to) return [[]];
  return from.links.flatMap(({ part, far }) =>
    visited.includes(far) || ohms(part) === Infinity
      ? []
      : everyPath(far, to, [...visited, far]).map((rest) => [part, ...rest]),
  );
}

describe('partsBetween', () => {
  it('gives the elements of all paths that enumeration finds', () => {
    fc.assert(
      fc.property(networks, (circuit) => {
        const wires = wiring(circuit);
        const a = wires.nodeNamed('n0');
        const b = wires.nodeNamed('n1');
        if (!a || !b) return;
        const expected = new Set(everyPath(a, b).flat());
        expect(new Set(partsBetween(wires, a, b, ohms, Infinity))).toEqual(expected);
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  it('leaves out none of a path below the bound, and nothing but elements of some path', () => {
    fc.assert(
      fc.property(networks, fc.integer({ min: 200, max: 9000 }), (circuit, bound) => {
        const wires = wiring(circuit);
        const a = wires.nodeNamed('n0');
        const b = wires.nodeNamed('n1');
        if (!a || !b) return;
        const paths = everyPath(a, b);
        const total = (path: readonly WirePart[]): number => path.reduce((sum, part) => sum + ohms(part), 0);
        const below = new Set(paths.filter((path) => total(path) < bound).flat());
        const found = new Set(partsBetween(wires, a, b, ohms, bound));
        expect([...below].every((part) => found.has(part))).toBe(true);
        expect([...found].every((part) => paths.some((path) => path.includes(part)))).toBe(true);
      }),
      { seed: 8, numRuns: 500 },
    );
  });

  it('keeps off nodes that may not be entered', () => {
    const circuit = circuitOf(
      [
        accumulator('acc', ['p', 'n']),
        resistor('direct', ['a', 'b'], 1),
        resistor('there', ['a', 'x'], 1),
        resistor('back', ['x', 'b'], 1),
      ],
      { link: ['p', 'n'] },
    );
    const wires = wiring(circuit);
    const [a, b, x] = ['a', 'b', 'x'].map((name) => wires.nodeNamed(name) as WireNode);
    const ids = (parts: readonly WirePart[]) => parts.map(({ element }) => element.id);
    expect(ids(partsBetween(wires, a!, b!, ohms, Infinity))).toEqual(['back', 'direct', 'there']);
    expect(ids(partsBetween(wires, a!, b!, ohms, Infinity, (node) => node !== x))).toEqual(['direct']);
    expect(partsBetween(wires, a!, a!, ohms, Infinity)).toEqual([]);
  });
});
