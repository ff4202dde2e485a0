/** An element between two nodes. */
export interface LoopEdge {
  readonly element: number;
  readonly a: number;
  readonly b: number;
}

/** The elements of a shortest loop through the edge, itself among them; only itself where it lies on none. */
export function loopThrough(edge: LoopEdge, others: readonly LoopEdge[]): number[] {
  const via = new Map<number, { readonly edge: LoopEdge; readonly from: number }>();
  const queue = [edge.a];
  for (let node = queue.shift(); node !== undefined && !via.has(edge.b); node = queue.shift()) {
    for (const other of others) {
      if (other.element === edge.element) continue;
      const next = other.a === node ? other.b : other.b === node ? other.a : edge.a;
      if (next === edge.a || via.has(next)) continue;
      via.set(next, { edge: other, from: node });
      queue.push(next);
    }
  }
  const loop = [edge.element];
  for (let step = via.get(edge.b); step !== undefined; step = via.get(step.from)) loop.push(step.edge.element);
  return loop;
}
