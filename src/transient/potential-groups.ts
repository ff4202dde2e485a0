/** An ideal connection: no resistance, a fixed voltage. v(b) = v(a) + voltage. */
export interface IdealEdge {
  /** Index of the element. */
  readonly element: number;
  readonly a: number;
  readonly b: number;
  readonly voltage: number;
  /** False where it closes a loop of ideal connections: its current is then indeterminate. */
  readonly tree: boolean;
}

/**
 * Nodes held at fixed differences by ideal connections: union-find with an offset to the group's representative.
 */
export class PotentialGroups {
  private readonly parent: number[];
  private readonly relative: number[];
  readonly edges: IdealEdge[] = [];

  constructor(size: number) {
    this.parent = new Array<number>(size).fill(0).map((_, i) => i);
    this.relative = new Array<number>(size).fill(0);
  }

  /** The representative of the node's group. */
  find(node: number): number {
    const parent = this.parent[node] as number;
    if (parent === node) return node;
    const root = this.find(parent);
    this.relative[node] = (this.relative[node] as number) + (this.relative[parent] as number);
    this.parent[node] = root;
    return root;
  }

  /** v(node) − v(its representative), V. */
  offset(node: number): number {
    this.find(node);
    return this.relative[node] as number;
  }

  /**
   * Ties v(b) = v(a) + voltage.
   * @returns by how many V it contradicts what is tied already; 0 where it does not
   */
  tie(element: number, a: number, b: number, voltage: number): number {
    const rootA = this.find(a);
    const rootB = this.find(b);
    const tree = rootA !== rootB;
    this.edges.push({ element, a, b, voltage, tree });
    if (!tree) return Math.abs(this.offset(a) + voltage - this.offset(b));
    // The smaller number stays representative, so that the answer does not depend on the order of the ties.
    const shift = this.offset(a) + voltage - this.offset(b);
    if (rootA < rootB) {
      this.parent[rootB] = rootA;
      this.relative[rootB] = shift;
    } else {
      this.parent[rootA] = rootB;
      this.relative[rootA] = -shift;
    }
    return 0;
  }

  /** Elements of the ideal tree that lead from one node to another, in order; empty where none does. */
  path(from: number, to: number): number[] {
    const via = new Map<number, IdealEdge>();
    const seen = new Set([from]);
    const queue = [from];
    for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
      if (node === to) break;
      for (const edge of this.edges) {
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
}
