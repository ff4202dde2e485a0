/** Sets of nodes that are one for a question of direct current (union-find with path halving). */
export class NodeUnion {
  private readonly parents: number[];

  constructor(count: number) {
    this.parents = [];
    for (let node = 0; node < count; node += 1) this.parents.push(node);
  }

  /** The node that stands for the set: the smallest one, so that the answer depends on no order of joining. */
  find(node: number): number {
    let at = node;
    for (;;) {
      const parent = this.parents[at] ?? at;
      if (parent === at) return at;
      const grandparent = this.parents[parent] ?? parent;
      this.parents[at] = grandparent;
      at = grandparent;
    }
  }

  join(a: number, b: number): void {
    const rootA = this.find(a);
    const rootB = this.find(b);
    if (rootA < rootB) this.parents[rootB] = rootA;
    else this.parents[rootA] = rootB;
  }
}
