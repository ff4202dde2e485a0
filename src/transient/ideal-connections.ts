import { NodeUnion } from '../circuit/node-union.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { type IdealEdge, treePath } from './tree-path.js';

/** Voltages of ideal accumulators that add up: parameter index and sign. */
type VoltageSum = ReadonlyArray<{ readonly parameter: number; readonly sign: 1 | -1 }>;

/** Elements whose currents add up to that of an ideal connection, by index. */
export type Carried = ReadonlyArray<{ readonly element: number; readonly sign: 1 | -1 }> | 'indeterminate-loop';

const NO_VOLTAGE: VoltageSum = [];

/** Relative to the voltages that disagree. */
const SAME_VOLTAGE = 1e-9;

/** The elements of a switch state that join their nodes without resistance, and what follows of them. */
export class IdealConnections {
  readonly edges: readonly IdealEdge[];
  /** By element index; −1: it is none. */
  readonly edgeOf: readonly number[];
  /** True where no ideal accumulator is joined in: every offset is 0. */
  readonly withoutOffsets: boolean;

  private readonly groups: NodeUnion;
  private readonly noOffsets: readonly number[];
  private readonly sums: (VoltageSum | undefined)[] = [];
  private readonly behind = new Map<number, Carried>();

  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly modes: Modes,
    ties: readonly CompiledElement[],
    private readonly nodeCount: number,
  ) {
    this.groups = new NodeUnion(nodeCount);
    this.edges = ties.map(({ index, a, b }) => {
      const tree = this.groups.find(a) !== this.groups.find(b);
      this.groups.join(a, b);
      return { element: index, a, b, tree };
    });
    const edgeOf = new Array<number>(compiled.elements.length).fill(-1);
    this.edges.forEach((edge, k) => {
      edgeOf[edge.element] = k;
    });
    this.edgeOf = edgeOf;
    this.noOffsets = new Array<number>(nodeCount).fill(0);
    this.withoutOffsets = ties.every(({ kind }) => kind !== 'accumulator');
  }

  /** Numbers the groups of joined nodes in order of their smallest node: the merged node of each node, and how many there are. */
  merge(): { readonly merged: readonly number[]; readonly size: number } {
    const merged = new Array<number>(this.nodeCount).fill(-1);
    const names = new Array<number>(this.nodeCount).fill(-1);
    let size = 0;
    for (let node = 0; node < this.nodeCount; node += 1) {
      const root = this.groups.find(node);
      if (names[root] === -1) {
        names[root] = size;
        size += 1;
      }
      merged[node] = names[root] as number;
    }
    return { merged, size };
  }

  /** `offset` of every node. */
  offsets(values: Values): readonly number[] {
    if (this.withoutOffsets) return this.noOffsets;
    return Array.from({ length: this.nodeCount }, (_, node) => this.offset(node, values));
  }

  /** v(node) − v(its merged node), V: what ideal accumulators put between them. */
  offset(node: number, values: Values): number {
    const sum = this.voltagesTo(node);
    let total = 0;
    for (const { parameter, sign } of sum) total += sign * (values[parameter] as number);
    return total;
  }

  /** Elements of the loop that an ideal connection closes against other ideal accumulators; undefined: none contradicts. */
  contradiction(values: Values): CompiledElement[] | undefined {
    if (this.withoutOffsets) return undefined;
    for (const edge of this.edges) {
      if (edge.tree) continue;
      const between = this.offset(edge.a, values) - this.offset(edge.b, values) - this.ownVoltage(edge.element, values);
      const scale = Math.max(1, Math.abs(this.offset(edge.a, values)), Math.abs(this.ownVoltage(edge.element, values)));
      if (Math.abs(between) <= SAME_VOLTAGE * scale) continue;
      return [edge.element, ...treePath(this.edges, edge.b, edge.a)].map(
        (index) => this.compiled.elements[index] as CompiledElement,
      );
    }
    return undefined;
  }

  /**
   * An ideal connection's current by Kirchhoff's law: the elements behind it whose currents add up to it, with their signs.
   * Not determined where it lies on a loop of ideal connections.
   */
  carriedBy(element: number): Carried {
    const known = this.behind.get(element);
    if (known !== undefined) return known;
    const found = this.findCarried(element);
    this.behind.set(element, found);
    return found;
  }

  private findCarried(element: number): Carried {
    const edge = this.edges[this.edgeOf[element] as number];
    if (edge === undefined) return [];
    const side = this.joinedTo(edge.b, element);
    if (side.has(edge.a)) return 'indeterminate-loop';
    return this.compiled.elements.flatMap(({ index, a, b }): { element: number; sign: 1 | -1 }[] => {
      if (this.modes[index] === Mode.absent || (this.edgeOf[index] as number) >= 0) return [];
      const inside = (side.has(a) ? 1 : 0) - (side.has(b) ? 1 : 0);
      return inside === 0 ? [] : [{ element: index, sign: inside as 1 | -1 }];
    });
  }

  /** Whether a node lies behind an ideal connection, on the side of its second node. */
  isBehind(element: number, node: number): boolean {
    const edge = this.edges[this.edgeOf[element] as number];
    return edge !== undefined && this.joinedTo(edge.b, element).has(node);
  }

  /** Nodes joined to the start by ideal connections other than the one named. */
  private joinedTo(start: number, without: number): Set<number> {
    const side = new Set([start]);
    const queue = [start];
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      for (const edge of this.edges) {
        if (edge.element === without) continue;
        const next = edge.a === node ? edge.b : edge.b === node ? edge.a : -1;
        if (next < 0 || side.has(next)) continue;
        side.add(next);
        queue.push(next);
      }
    }
    return side;
  }

  private ownVoltage(element: number, values: Values): number {
    const each = this.compiled.elements[element];
    return each?.kind === 'accumulator' ? (values[each.primary] as number) : 0;
  }

  private voltagesTo(node: number): VoltageSum {
    const known = this.sums[node];
    if (known !== undefined) return known;
    const root = this.groups.find(node);
    const sum: { parameter: number; sign: 1 | -1 }[] = [];
    let here = root;
    for (const index of treePath(this.edges, root, node)) {
      const element = this.compiled.elements[index] as CompiledElement;
      const forward = element.a === here;
      here = forward ? element.b : element.a;
      // v(a) = v(b) + voltage for an accumulator from a (positive) to b.
      if (element.kind === 'accumulator') sum.push({ parameter: element.primary, sign: forward ? -1 : 1 });
    }
    const found = sum.length === 0 ? NO_VOLTAGE : sum;
    this.sums[node] = found;
    return found;
  }
}
