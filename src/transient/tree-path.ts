/** An ideal connection: no resistance. */
export interface IdealEdge {
  /** Index of the element. */
  readonly element: number;
  readonly a: number;
  readonly b: number;
  /** False where it closes a loop of ideal connections: its current is then indeterminate. */
  readonly tree: boolean;
}

/** Elements of the ideal tree that lead from one node to another, in order; empty where none does. */
export function treePath(edges: readonly IdealEdge[], from: number, to: number): number[] {
  const via = new Map<number, IdealEdge>();
  const seen = new Set([from]);
  const queue = [from];
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    if (node === to) break;
    for (const edge of edges) {
      if (!edge.tree) continue;
      const next = edge.a === node ? edge.b : edge.b === node ? edge.a : -1;
      if (next < 0 || seen.has(next)) continue;
      seen.add(next);
      via.set(next, edge);
      queue.push(next);
    }
  }
  const path: number[] = [];
  for (let node = to; node !== from; ) {
    const edge = via.get(node);
    if (edge === undefined) return [];
    path.unshift(edge.element);
    node = edge.a === node ? edge.b : edge.a;
  }
  return path;
}
