/** An edge between two nodes of a graph. */
export interface GraphEdge {
  readonly a: number;
  readonly b: number;
}

/**
 * Whether every block of the graph is series-parallel: it reduces to nothing by joining parallel edges, joining two edges in
 * series, and dropping what dangles.
 *
 * In such a graph the direction of every branch's current is the same for all positive resistances, so the effect of each
 * resistance on each voltage has one sign over all of its range.
 * Source: R. J. Duffin, "Topology of series-parallel networks", J. Math. Anal. Appl. 10 (1965).
 */
export function isSeriesParallel(edges: readonly GraphEdge[]): boolean {
  const neighbours = new Map<number, Set<number>>();
  const meet = (a: number, b: number): void => {
    const known = neighbours.get(a);
    if (known === undefined) neighbours.set(a, new Set([b]));
    else known.add(b);
  };
  for (const { a, b } of edges) {
    if (a === b) continue;
    // A set of neighbours joins parallel edges by itself.
    meet(a, b);
    meet(b, a);
  }
  const queue = [...neighbours.keys()];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    const around = neighbours.get(node);
    if (around === undefined || around.size > 2) continue;
    neighbours.delete(node);
    const [left, right] = [...around];
    for (const other of around) neighbours.get(other)?.delete(node);
    if (left !== undefined && right !== undefined) {
      meet(left, right);
      meet(right, left);
    }
    queue.push(...around);
  }
  return neighbours.size === 0;
}
