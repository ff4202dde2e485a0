import { LastFew } from './last-few.js';
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

const known = new LastFew<ResolvedCircuit, Adjacency>(4);

/** The adjacency of a circuit, built once for each circuit. */
export function adjacencyOf(circuit: ResolvedCircuit): Adjacency {
  return known.get(circuit, () => build(circuit));
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
