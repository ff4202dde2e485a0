/**
 * A network of conductances with a voltage in series with each, that can only be added to and have nodes taken out of.
 *
 * Branch i–j carries from i to j the current g·(vᵢ − vⱼ) + h, with g ≥ 0 and h = g·e (e the series voltage); h is antisymmetric.
 * Node `node` also receives an injected current. Taking a node out (star-mesh) uses sums, products and quotients
 * of non-negative numbers only, so conductances keep their relative accuracy however small a leak is beside a cable; the
 * diagonal of the usual nodal matrix, in which the leak would drown, is never formed.
 * Source, from memory: the star-mesh theorem is A. Rosen's (Journal of the IEE 62, 1924); that elimination without subtraction
 * is accurate entry by entry is W. Grassmann, M. Taksar, D. Heyman (Operations Research 33, 1985).
 */
export class ConductanceNetwork {
  private readonly g: Float64Array;
  /** One matrix a channel: channel 0 is constant, each further one fades with a rate of its own (a coasting machine). */
  private readonly h: readonly Float64Array[];
  private readonly injected: readonly Float64Array[];
  /** 0 while in; else its place in the order of taking out, from 1. */
  private readonly rank: Int32Array;
  private readonly taken: number[] = [];

  constructor(
    readonly size: number,
    readonly channels = 1,
  ) {
    this.g = new Float64Array(size * size);
    this.h = Array.from({ length: channels }, () => new Float64Array(size * size));
    this.injected = Array.from({ length: channels }, () => new Float64Array(size));
    this.rank = new Int32Array(size);
  }

  /** @param conductance S, > 0 */
  add(a: number, b: number, conductance: number): void {
    if (a === b) return;
    const n = this.size;
    this.g[a * n + b] = (this.g[a * n + b] as number) + conductance;
    this.g[b * n + a] = this.g[a * n + b] as number;
  }

  /** @param current A that the branch a–b carries from a to b when both nodes stand at one potential: conductance × series voltage */
  drive(a: number, b: number, current: number, channel = 0): void {
    if (a === b || current === 0) return;
    const n = this.size;
    const h = this.h[channel] as Float64Array;
    h[a * n + b] = (h[a * n + b] as number) + current;
    h[b * n + a] = -(h[a * n + b] as number);
  }

  /** A current in A into the node. */
  inject(node: number, current: number, channel = 0): void {
    const injected = this.injected[channel] as Float64Array;
    injected[node] = (injected[node] as number) + current;
  }

  conductance(a: number, b: number): number {
    return this.g[a * this.size + b] as number;
  }

  /** h of the branch a–b, A. */
  shortCircuit(a: number, b: number, channel = 0): number {
    return (this.h[channel] as Float64Array)[a * this.size + b] as number;
  }

  injection(node: number, channel = 0): number {
    return (this.injected[channel] as Float64Array)[node] as number;
  }

  isOut(node: number): boolean {
    return this.rank[node] !== 0;
  }

  /** Nodes taken out, first to last. */
  get order(): readonly number[] {
    return this.taken;
  }

  /** True where `other` was still in when `node` was taken out: the nodes that `node`'s voltage follows from. */
  follows(node: number, other: number): boolean {
    const rank = this.rank[other] as number;
    return other !== node && (rank === 0 || rank > (this.rank[node] as number));
  }

  /** Sum of the conductances to the nodes still in (or, for a node taken out, still in at that time), S. */
  total(node: number): number {
    const n = this.size;
    let sum = 0;
    for (let i = 0; i < n; i += 1) {
      if (this.rank[node] === 0 ? this.rank[i] === 0 : this.follows(node, i)) sum += this.g[node * n + i] as number;
    }
    return sum;
  }

  /**
   * Takes the node out. Its row stays readable: v = Σ (gᵢ·vᵢ − hᵢ)/total + injected/total over the nodes that it follows from.
   * A node without any conductance left is dropped, and what is injected into it goes nowhere.
   * @returns the node's total conductance, S
   */
  takeOut(node: number): number {
    const n = this.size;
    const { g, rank } = this;
    const total = this.total(node);
    this.taken.push(node);
    rank[node] = this.taken.length;
    if (total === 0) return 0;
    const row = node * n;
    for (let i = 0; i < n; i += 1) {
      const gi = g[row + i] as number;
      if (rank[i] !== 0 || gi === 0) continue;
      for (let c = 0; c < this.channels; c += 1) {
        const current = this.injection(node, c);
        if (current !== 0) this.inject(i, (current * gi) / total, c);
      }
      for (let j = i + 1; j < n; j += 1) {
        const gj = g[row + j] as number;
        if (rank[j] !== 0 || gj === 0) continue;
        this.add(i, j, (gi * gj) / total);
        for (let c = 0; c < this.channels; c += 1) {
          const h = this.h[c] as Float64Array;
          this.drive(i, j, (gi * (h[row + j] as number) - gj * (h[row + i] as number)) / total, c);
        }
      }
    }
    return total;
  }
}
