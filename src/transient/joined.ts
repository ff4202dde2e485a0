import type { GraphEdge } from './series-parallel.js';

/** Whether a way leads from one node to another along the edges, those left out that are named. */
export function joined(edges: readonly GraphEdge[], without: readonly GraphEdge[], from: number, to: number): boolean {
  const seen = new Set([from]);
  const queue = [from];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (node === to) return true;
    for (const edge of edges) {
      if (without.includes(edge)) continue;
      const next = edge.a === node ? edge.b : edge.b === node ? edge.a : node;
      if (seen.has(next)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return false;
}
