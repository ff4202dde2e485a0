import type { ResolvedCircuit } from './model.js';

export interface Edge {
  /** Position of the element in `circuit.elements`. */
  readonly element: number;
  /** Position of the node at its other end in `circuit.nodes`. */
  readonly to: number;
}

/** Which elements touch which node, by position, so that searches need no text. */
export interface Adjacency {
  readonly indexOf: ReadonlyMap<string, number>;
  /** By node; in order of element. */
  readonly edges: ReadonlyArray<readonly Edge[]>;
}

const known = new WeakMap<ResolvedCircuit, Adjacency>();

/** The adjacency of a circuit, built once for each circuit. */
export function adjacencyOf(circuit: ResolvedCircuit): Adjacency {
  let adjacency = known.get(circuit);
  if (adjacency === undefined) {
    adjacency = build(circuit);
    known.set(circuit, adjacency);
  }
  return adjacency;
}

function build({ elements, nodes }: ResolvedCircuit): Adjacency {
  const indexOf = new Map(nodes.map((node, index) => [node, index]));
  const edges: Edge[][] = nodes.map(() => []);
  for (const [element, { nodes: ends }] of elements.entries()) {
    const from = indexOf.get(ends[0]);
    const to = indexOf.get(ends[1]);
    if (from === undefined || to === undefined)
      throw new Error(`an element's node is missing from the circuit's nodes`);
    edges[from]?.push({ element, to });
    edges[to]?.push({ element, to: from });
  }
  return { indexOf, edges };
}
