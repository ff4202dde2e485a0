import { joined } from './joined.js';
import type { GraphEdge } from './series-parallel.js';

/**
 * Whether the sources drive the network as one source would: all that lie on any loop lie in series, and aid each other.
 *
 * @param sources edges of the graph, each from its positive to its negative node; among `edges` by identity
 */
export function actAsOne(sources: readonly GraphEdge[], edges: readonly GraphEdge[]): boolean {
  const [first, ...rest] = sources.filter((source) => joined(edges, [source], source.a, source.b));
  if (first === undefined) return true;
  return rest.every((other) => {
    const without = [first, other];
    // Two edges are in series where taking one away leaves the other on no loop; then each end of one hangs on an end of the other.
    return !joined(edges, without, other.a, other.b) && joined(edges, without, first.b, other.a);
  });
}
