import { adjacencyOf } from './adjacency.js';
import type { Conducts } from './conducts-at.js';
import type { ResolvedCircuit } from './model.js';

/** A chain of conducting elements. `resistance` in Ω is their sum; 0 where none states one. */
export interface ConductingPath {
  readonly elements: readonly string[];
  readonly nodes: readonly string[];
  readonly resistance: number;
}

/** A way to a node, as a chain back to the start. Nodes and elements by position in the circuit. */
interface Way {
  readonly node: number;
  readonly resistance: number;
  readonly length: number;
  /** Undefined at the start. */
  readonly last?: { readonly element: number; readonly before: Way };
}

/** The conducting path of least resistance between two nodes; undefined where nothing joins them. See `reachable`. */
export function leastResistancePath(
  circuit: ResolvedCircuit,
  from: string,
  to: string,
  conducts: Conducts,
): ConductingPath | undefined {
  const target = adjacencyOf(circuit).indexOf.get(to);
  const way = target === undefined ? undefined : waysFrom(circuit, from, conducts, target)[target];
  return way === undefined ? undefined : pathOf(way, circuit);
}

/**
 * Every node joined to `from` by conducting elements, each with the path of least resistance to it: of equal sums the one
 * with fewer elements, of those the one whose ids come first. `from` itself has the empty path; a node that no element
 * touches reaches nothing, not even itself. Nodes in order.
 */
export function reachable(
  circuit: ResolvedCircuit,
  from: string,
  conducts: Conducts,
): ReadonlyMap<string, ConductingPath> {
  const paths = new Map<string, ConductingPath>();
  const ways = waysFrom(circuit, from, conducts);
  for (const [node, name] of circuit.nodes.entries()) {
    const way = ways[node];
    if (way !== undefined) paths.set(name, pathOf(way, circuit));
  }
  return paths;
}

/**
 * Dijkstra's method with a three-part order (sum, number of elements, elements in turn) that only grows along a path.
 * Plain search for the nearest open node: circuits are too small for a heap to pay.
 */
function waysFrom(circuit: ResolvedCircuit, from: string, conducts: Conducts, until?: number): Array<Way | undefined> {
  const { indexOf, edges } = adjacencyOf(circuit);
  const best = new Array<Way | undefined>(circuit.nodes.length).fill(undefined);
  const start = indexOf.get(from);
  if (start === undefined) return best;
  const ohms = circuit.elements.map((element) => {
    const value = conducts(element);
    return value !== undefined && value >= 0 && Number.isFinite(value) ? value : undefined;
  });
  best[start] = { node: start, resistance: 0, length: 0 };
  const open = new Set([start]);
  for (;;) {
    let here: Way | undefined;
    for (const node of open) {
      const way = best[node];
      if (way !== undefined && (here === undefined || isShorter(way, here))) here = way;
    }
    if (here === undefined || here.node === until) return best;
    open.delete(here.node);
    for (const { element, to } of edges[here.node] ?? []) {
      const value = ohms[element];
      if (value === undefined) continue;
      const way: Way = {
        node: to,
        resistance: here.resistance + value,
        length: here.length + 1,
        last: { element, before: here },
      };
      const present = best[to];
      if (present === undefined || isShorter(way, present)) {
        best[to] = way;
        open.add(to);
      }
    }
  }
}

function isShorter(a: Way, b: Way): boolean {
  if (a.resistance !== b.resistance) return a.resistance < b.resistance;
  if (a.length !== b.length) return a.length < b.length;
  // Elements stand in order of id, so positions compare as ids do.
  const ours = elementsOf(a);
  const theirs = elementsOf(b);
  for (const [index, element] of ours.entries()) {
    const other = theirs[index] ?? element;
    if (element !== other) return element < other;
  }
  return false;
}

function elementsOf(way: Way): number[] {
  const elements: number[] = [];
  for (let last = way.last; last !== undefined; last = last.before.last) elements.push(last.element);
  return elements.reverse();
}

function pathOf(way: Way, circuit: ResolvedCircuit): ConductingPath {
  const nodes: string[] = [];
  for (let at: Way | undefined = way; at !== undefined; at = at.last?.before) nodes.push(circuit.nodes[at.node] ?? '');
  const elements = elementsOf(way).map((element) => circuit.elements[element]?.id ?? '');
  return { elements, nodes: nodes.reverse(), resistance: way.resistance };
}
