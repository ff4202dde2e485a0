import { insertInOrder } from './insert-in-order.js';

/** One purely resistive node leaving the network: which nodes it leaves joined, by edge number. */
export interface EliminationStep {
  readonly node: number;
  /** Nodes still in that it is joined to, in order of number. */
  readonly neighbours: readonly number[];
  /** The edge to each of them. */
  readonly edges: readonly number[];
  /** 1 where the edge is counted from the leaving node, −1 where it is counted towards it. */
  readonly signs: readonly number[];
  /** The edge between each two of the neighbours, in the order (0,1), (0,2), …, (1,2), … */
  readonly pairs: readonly number[];
}

/**
 * The structure of a network's star-mesh elimination: which edges there are and come to be, and what each step touches.
 * It depends on no number, so it is worked out once and replayed for every set of values.
 */
export class Elimination {
  readonly edgeCount: number;
  /** By position in `order`. */
  readonly steps: readonly EliminationStep[];
  /** Place of a node in `steps`; −1: it stays in. */
  readonly stepOf: readonly number[];
  private readonly edgeOf: number[];

  /**
   * @param size number of nodes
   * @param joined pairs of nodes with a branch between them; a pair of one node is passed over
   * @param stays by node: true where it must stay in
   */
  constructor(
    readonly size: number,
    joined: ReadonlyArray<{ readonly ma: number; readonly mb: number }>,
    stays: readonly boolean[],
  ) {
    this.edgeOf = new Array<number>(size * size).fill(-1);
    const around = stays.map((): number[] => []);
    let count = 0;
    const join = (a: number, b: number): number => {
      const known = this.edge(a, b);
      if (known >= 0) return known;
      this.edgeOf[a * size + b] = count;
      this.edgeOf[b * size + a] = count;
      insertInOrder(around[a] as number[], b);
      insertInOrder(around[b] as number[], a);
      count += 1;
      return count - 1;
    };
    for (const { ma, mb } of joined) if (ma !== mb) join(ma, mb);
    const stepOf = new Array<number>(size).fill(-1);
    const steps: EliminationStep[] = [];
    const left: number[] = [];
    for (let node = 0; node < size; node += 1) if (!stays[node]) left.push(node);
    while (left.length > 0) {
      // Fewest neighbours first: the least fill.
      let at = 0;
      for (let k = 1; k < left.length; k += 1) if (sizeOf(around, left[k]) < sizeOf(around, left[at])) at = k;
      const node = left[at] as number;
      take(left, node);
      const neighbours = around[node] as number[];
      const edges: number[] = [];
      const signs: number[] = [];
      const pairs: number[] = [];
      for (const neighbour of neighbours) {
        take(around[neighbour] as number[], node);
        edges.push(this.edge(node, neighbour));
        signs.push(node < neighbour ? 1 : -1);
      }
      for (let i = 0; i < neighbours.length; i += 1) {
        // In order of number, so the edge is counted from the one to the other.
        for (let j = i + 1; j < neighbours.length; j += 1)
          pairs.push(join(neighbours[i] as number, neighbours[j] as number));
      }
      stepOf[node] = steps.length;
      steps.push({ node, neighbours, edges, signs, pairs });
    }
    this.steps = steps;
    this.stepOf = stepOf;
    this.edgeCount = count;
  }

  /** Number of the edge between two nodes, counted from the smaller to the larger; −1: there is none. */
  edge(a: number, b: number): number {
    return this.edgeOf[a * this.size + b] as number;
  }
}

function sizeOf(around: ReadonlyArray<readonly number[]>, node: number | undefined): number {
  return around[node ?? -1]?.length ?? 0;
}

/** Takes a number out of a list; the others keep their order. */
function take(list: number[], value: number): void {
  for (let at = list.indexOf(value) + 1; at < list.length; at += 1) list[at - 1] = list[at] as number;
  list.pop();
}
