import type { Element } from '../../src/circuit/model.js';
import { accumulator, capacitor, resistor, within } from './net.js';
import { decades, pick } from './random.js';

const name = (k: number) => `n${String(k).padStart(2, '0')}`;

/** A random two-terminal series-parallel graph with one source or two, one capacitor and resistors, every value within a tolerance. */
export function seriesParallelCircuit(
  next: () => number,
  growth: number,
): { elements: Element[]; pair: [string, string] } {
  const edges: [number, number][] = [
    [0, 1],
    [0, 1],
  ];
  let nodes = 2;
  for (let k = 0; k < growth; k += 1) {
    const at = Math.floor(next() * edges.length);
    const [a, b] = edges[at]!;
    if (next() < 0.45) edges.push([a, b]);
    else {
      edges.splice(at, 1, [a, nodes], [nodes, b]);
      nodes += 1;
    }
  }
  const turned = edges.map(([a, b]): [number, number] => (next() < 0.5 ? [a, b] : [b, a]));
  const places = turned.map((_, k) => k).sort(() => next() - 0.5);
  const [source, store, second] = places as [number, number, number?];
  const two = next() < 0.3;
  const tolerance = () => pick(next, [0.05, 0.2, 0.5]);
  const elements = turned.map(([a, b], k): Element => {
    if (k === source)
      return accumulator('a', name(a), name(b), within(400, 0.2), within(decades(next, -2, 2), tolerance()));
    if (k === second && two) {
      return accumulator('b', name(a), name(b), within(pick(next, [30, 390]), 0.2), within(decades(next, -1, 3), 0.5));
    }
    if (k === store) {
      const esr = next() < 0.4 ? { esr: within(decades(next, -1, 2), tolerance()) } : {};
      return capacitor('c', name(a), name(b), within(decades(next, -5, -3), tolerance()), esr);
    }
    return resistor(`r${name(k)}`, name(a), name(b), within(decades(next, 0, 5), tolerance()));
  });
  const [a, b] = turned[pick(next, [store, pick(next, places)])]!;
  return { elements, pair: [name(a), name(b)] };
}
