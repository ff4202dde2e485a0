import { ConductanceNetwork } from './conductance-network.js';
import type { Elimination } from './elimination.js';
import type { Row } from './row.js';

/**
 * The numbers of a network whose purely resistive nodes are taken out along a known elimination: the arithmetic of
 * `ConductanceNetwork` (sums, products and quotients of non-negative conductances only) on a flat list of edges.
 *
 * An edge carries g·(v_a − v_b) + h from its smaller node a to its larger node b.
 */
export class ReducedNetwork {
  /** S; of a node taken out, what it was joined by. */
  private readonly totals: number[];
  private readonly g: number[];
  /** A; channel c, edge e at [c·edges + e]. */
  private readonly h: number[];
  /** A; channel c, node n at [c·size + n]. */
  private readonly injected: number[];

  constructor(
    readonly elimination: Elimination,
    readonly channels: number,
  ) {
    const { edgeCount, size, steps } = elimination;
    this.g = new Array<number>(edgeCount).fill(0);
    this.h = new Array<number>(edgeCount * channels).fill(0);
    this.injected = new Array<number>(size * channels).fill(0);
    this.totals = new Array<number>(steps.length).fill(0);
  }

  /** @param conductance S, > 0; of the edge between two nodes */
  add(edge: number, conductance: number): void {
    this.g[edge] = (this.g[edge] as number) + conductance;
  }

  /** @param current A that the edge carries from its smaller to its larger node when both stand at one potential */
  drive(edge: number, current: number, channel = 0): void {
    const at = channel * this.elimination.edgeCount + edge;
    this.h[at] = (this.h[at] as number) + current;
  }

  /** A current in A into the node. */
  inject(node: number, current: number, channel = 0): void {
    const at = channel * this.elimination.size + node;
    this.injected[at] = (this.injected[at] as number) + current;
  }

  /** S between two nodes that are both in. */
  conductance(a: number, b: number): number {
    const edge = this.elimination.edge(a, b);
    return edge < 0 ? 0 : (this.g[edge] as number);
  }

  /** A that flows from a to b when both stand at one potential. */
  shortCircuit(a: number, b: number, channel = 0): number {
    const edge = this.elimination.edge(a, b);
    if (edge < 0) return 0;
    const h = this.h[channel * this.elimination.edgeCount + edge] as number;
    return a < b ? h : -h;
  }

  injection(node: number, channel = 0): number {
    return this.injected[channel * this.elimination.size + node] as number;
  }

  /** Takes every node of the elimination out. A node without any conductance is dropped, and what is injected into it goes nowhere. */
  eliminate(): void {
    const { g, h, injected, channels, totals } = this;
    const { steps, edgeCount, size } = this.elimination;
    for (let s = 0; s < steps.length; s += 1) {
      const step = steps[s];
      if (step === undefined) continue;
      const { node, neighbours, edges, signs, pairs } = step;
      const count = edges.length;
      let total = 0;
      for (let i = 0; i < count; i += 1) total += g[edges[i] as number] as number;
      totals[s] = total;
      if (total === 0) continue;
      let pair = 0;
      for (let i = 0; i < count; i += 1) {
        const gi = g[edges[i] as number] as number;
        for (let c = 0; c < channels; c += 1) {
          const current = injected[c * size + node] as number;
          const at = c * size + (neighbours[i] as number);
          if (current !== 0) injected[at] = (injected[at] as number) + (current * gi) / total;
        }
        for (let j = i + 1; j < count; j += 1, pair += 1) {
          const gj = g[edges[j] as number] as number;
          const edge = pairs[pair] as number;
          g[edge] = (g[edge] as number) + (gi * gj) / total;
          for (let c = 0; c < channels; c += 1) {
            const base = c * edgeCount;
            const hi = (h[base + (edges[i] as number)] as number) * (signs[i] as number);
            const hj = (h[base + (edges[j] as number)] as number) * (signs[j] as number);
            if (hi === 0 && hj === 0) continue;
            h[base + edge] = (h[base + edge] as number) + (gi * hj - gj * hi) / total;
          }
        }
      }
    }
  }

  /**
   * Adds to `row` what a node taken out takes from the nodes that it was joined to: v = Σ (gᵢ·vᵢ − hᵢ)/total + injected/total.
   * @param rowOf shares of a node, modes first, channels from `firstChannel` on
   */
  combine(stepNumber: number, row: Row, firstChannel: number, rowOf: (node: number) => Row): void {
    const total = this.totals[stepNumber] as number;
    const step = this.elimination.steps[stepNumber];
    if (total === 0 || step === undefined) return;
    const { node, neighbours, edges, signs } = step;
    const { channels } = this;
    for (let i = 0; i < edges.length; i += 1) {
      const g = this.g[edges[i] as number] as number;
      if (g === 0) continue;
      const share = g / total;
      const other = rowOf(neighbours[i] as number);
      for (let k = 0; k < row.length; k += 1) row[k] = (row[k] as number) + share * (other[k] as number);
      for (let c = 0; c < channels; c += 1) {
        const h = (this.h[c * this.elimination.edgeCount + (edges[i] as number)] as number) * (signs[i] as number);
        row[firstChannel + c] = (row[firstChannel + c] as number) - h / total;
      }
    }
    for (let c = 0; c < channels; c += 1) {
      row[firstChannel + c] = (row[firstChannel + c] as number) + this.injection(node, c) / total;
    }
  }

  /** The nodes still in, in the order given, as a network that more nodes can be taken out of. */
  rest(nodes: readonly number[]): ConductanceNetwork {
    const rest = new ConductanceNetwork(nodes.length, this.channels);
    nodes.forEach((a, i) => {
      for (let c = 0; c < this.channels; c += 1) rest.inject(i, this.injection(a, c), c);
      nodes.forEach((b, j) => {
        if (j <= i) return;
        const g = this.conductance(a, b);
        if (g === 0) return;
        rest.add(i, j, g);
        for (let c = 0; c < this.channels; c += 1) rest.drive(i, j, this.shortCircuit(a, b, c), c);
      });
    });
    return rest;
  }
}
