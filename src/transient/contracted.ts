import { NodeUnion } from '../circuit/node-union.js';
import type { CompiledCircuit, CompiledElement } from './compiled-circuit.js';
import type { GraphEdge } from './series-parallel.js';

/** Edges of a graph in which what the resistances named, by their parameters, join is one node. */
export function contracted(
  compiled: CompiledCircuit,
  edges: readonly CompiledElement[],
  shorts: ReadonlySet<number>,
): <T extends GraphEdge>(edge: T) => T {
  const union = new NodeUnion(compiled.nodes.size);
  // An ESR joins nothing: its capacitor is still between the nodes.
  for (const { kind, primary, a, b } of edges) if (kind !== 'capacitor' && shorts.has(primary)) union.join(a, b);
  return (edge) => ({ ...edge, a: union.find(edge.a), b: union.find(edge.b) });
}
