import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { type IdealEdge, PotentialGroups } from './potential-groups.js';

/** A resistance with a voltage in series. Nodes are the circuit's own, then the insides of capacitors with ESR. */
export interface PlannedBranch {
  readonly element: CompiledElement;
  readonly a: number;
  readonly b: number;
  /** Merged nodes. */
  readonly ma: number;
  readonly mb: number;
  /** Index of the parameter that is its resistance. */
  readonly resistance: number;
  /** Channel of a machine's fading voltage; 0: none. */
  readonly channel: number;
}

export interface PlannedCapacitor {
  readonly element: CompiledElement;
  /** Its place among `compiled.capacitors`. */
  readonly position: number;
  readonly a: number;
  readonly b: number;
  readonly ma: number;
  readonly mb: number;
}

/** A load in its constant range. */
export interface PlannedCurrent {
  readonly element: CompiledElement;
  /** Channel of a constant-power load's fading part; 0: none. */
  readonly channel: number;
  readonly ma: number;
  readonly mb: number;
}

/** What conducts to one another, directly or through capacitors. */
export interface PlannedIsland {
  /** Merged nodes. */
  readonly nodes: readonly number[];
  readonly capacitors: readonly PlannedCapacitor[];
  /** Potentials of the island are relative to this merged node. */
  readonly reference: number;
  /** The node that all its capacitors share; undefined: there is none. */
  readonly common: number | undefined;
}

/** Voltages of ideal accumulators that add up: parameter index and sign. */
type VoltageSum = ReadonlyArray<{ readonly parameter: number; readonly sign: 1 | -1 }>;

const NO_VOLTAGE: VoltageSum = [];

/**
 * All of a switch state that does not depend on the numbers: which nodes are joined, which branches are left, which
 * islands there are. Made once for each set of modes (and of resistances that are 0), used for every set of values.
 */
export class StatePlan {
  readonly nodeCount: number;
  readonly size: number;
  /** Merged node of each node. */
  readonly merged: Int32Array;
  /** Island of each merged node. */
  readonly islandOf: Int32Array;
  readonly branches: readonly PlannedBranch[];
  readonly capacitors: readonly PlannedCapacitor[];
  readonly currents: readonly PlannedCurrent[];
  readonly islands: readonly PlannedIsland[];
  /** Purely resistive merged nodes, in the order they are taken out: fewest neighbours first. */
  readonly resistive: readonly number[];
  /** Rate of each drive channel, 1/s; channel 0 is constant. */
  readonly channelRates: readonly number[];
  /** By element index; −1: none. */
  readonly branchOf: Int32Array;
  readonly capacitorOf: Int32Array;
  readonly currentOf: Int32Array;
  readonly idealOf: Int32Array;
  readonly ideal: readonly IdealEdge[];

  private readonly groups: PotentialGroups;
  private readonly offsets: (VoltageSum | undefined)[];
  private readonly behind = new Map<
    number,
    ReadonlyArray<{ readonly element: number; readonly sign: 1 | -1 }> | 'indeterminate-loop'
  >();

  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly modes: Modes,
    values: Values,
  ) {
    const count = compiled.elements.length;
    this.branchOf = new Int32Array(count).fill(-1);
    this.capacitorOf = new Int32Array(count).fill(-1);
    this.currentOf = new Int32Array(count).fill(-1);
    this.idealOf = new Int32Array(count).fill(-1);
    const channelRates = [0];
    const kept: { element: CompiledElement; a: number; b: number; resistance: number; channel: number }[] = [];
    const storing: { element: CompiledElement; position: number; a: number; b: number }[] = [];
    const drawing: { element: CompiledElement; channel: number }[] = [];
    const ties: CompiledElement[] = [];
    let nodes = compiled.nodes.size;
    const resistance = (element: CompiledElement, parameter: number, channel = 0): void => {
      if ((values[parameter] as number) > 0 || element.kind === 'machine')
        kept.push({ element, a: element.a, b: element.b, resistance: parameter, channel });
      else ties.push(element);
    };
    for (const element of compiled.elements) {
      const mode = modes[element.index];
      if (mode === Mode.absent) continue;
      switch (element.kind) {
        case 'accumulator':
          resistance(element, element.secondary);
          break;
        case 'capacitor': {
          const position = compiled.capacitors.indexOf(element.index);
          if ((values[element.secondary] as number) > 0) {
            kept.push({ element, a: element.a, b: nodes, resistance: element.secondary, channel: 0 });
            storing.push({ element, position, a: nodes, b: element.b });
            nodes += 1;
          } else storing.push({ element, position, a: element.a, b: element.b });
          break;
        }
        case 'contact':
          if (mode === Mode.closed) resistance(element, element.primary);
          else if (element.secondary >= 0) resistance(element, element.secondary);
          break;
        case 'load':
          if (mode === Mode.closed) resistance(element, element.primary);
          else if (mode === Mode.constant) {
            // The rate of a constant-power load's channel is told with each solution.
            if (element.load === 'power') channelRates.push(0);
            drawing.push({ element, channel: element.load === 'power' ? channelRates.length - 1 : 0 });
          }
          break;
        case 'machine':
          if (mode !== Mode.closed) break;
          if (element.source.kind === 'machine' && element.source.decay !== undefined) {
            channelRates.push(1 / element.source.decay);
            resistance(element, element.secondary, channelRates.length - 1);
          } else resistance(element, element.secondary);
          break;
        case 'connector':
        case 'disconnect':
          if (mode === Mode.closed) resistance(element, element.primary);
          break;
        default:
          resistance(element, element.primary);
      }
    }
    this.nodeCount = nodes;
    this.channelRates = channelRates;
    this.groups = new PotentialGroups(nodes);
    for (const element of ties) this.groups.tie(element.index, element.a, element.b, 0);
    this.ideal = this.groups.edges;
    this.ideal.forEach((edge, k) => {
      this.idealOf[edge.element] = k;
    });
    this.offsets = new Array<VoltageSum | undefined>(nodes).fill(undefined);
    this.merged = new Int32Array(nodes);
    this.size = this.number();
    const at = (node: number): number => this.merged[node] as number;
    this.branches = kept.map((branch) => ({ ...branch, ma: at(branch.a), mb: at(branch.b) }));
    this.capacitors = storing.map((capacitor) => ({ ...capacitor, ma: at(capacitor.a), mb: at(capacitor.b) }));
    this.currents = drawing.map(({ element, channel }) => ({ element, channel, ma: at(element.a), mb: at(element.b) }));
    // A capacitor with ESR is a branch too, but its current is the capacitor's.
    this.branches.forEach(({ element }, k) => {
      if (element.kind !== 'capacitor') this.branchOf[element.index] = k;
    });
    this.capacitors.forEach(({ element }, k) => {
      this.capacitorOf[element.index] = k;
    });
    this.currents.forEach(({ element }, k) => {
      this.currentOf[element.index] = k;
    });
    this.islandOf = new Int32Array(this.size);
    this.islands = this.findIslands();
    this.resistive = this.takingOrder();
  }

  /** v(node) − v(its merged node), V: what ideal accumulators put between them. */
  offset(node: number, values: Values): number {
    const sum = this.voltagesTo(node);
    let total = 0;
    for (const { parameter, sign } of sum) total += sign * (values[parameter] as number);
    return total;
  }

  /** True where no ideal accumulator is joined in: every offset is 0. */
  get withoutOffsets(): boolean {
    return this.ideal.every(({ element }) => this.compiled.elements[element]?.kind !== 'accumulator');
  }

  /** Elements of the loop that an ideal connection closes against other ideal accumulators; undefined: none contradicts. */
  contradiction(values: Values): CompiledElement[] | undefined {
    if (this.withoutOffsets) return undefined;
    for (const edge of this.ideal) {
      if (edge.tree) continue;
      const between = this.offset(edge.a, values) - this.offset(edge.b, values) - this.ownVoltage(edge.element, values);
      const scale = Math.max(1, Math.abs(this.offset(edge.a, values)), Math.abs(this.ownVoltage(edge.element, values)));
      if (Math.abs(between) <= SAME_VOLTAGE * scale) continue;
      return [edge.element, ...this.groups.path(edge.b, edge.a)].map(
        (index) => this.compiled.elements[index] as CompiledElement,
      );
    }
    return undefined;
  }

  /**
   * An ideal connection's current by Kirchhoff's law: the elements behind it whose currents add up to it, with their signs.
   * Not determined where it lies on a loop of ideal connections.
   */
  carriedBy(
    element: number,
  ): ReadonlyArray<{ readonly element: number; readonly sign: 1 | -1 }> | 'indeterminate-loop' {
    const known = this.behind.get(element);
    if (known !== undefined) return known;
    const found = this.findCarried(element);
    this.behind.set(element, found);
    return found;
  }

  private findCarried(
    element: number,
  ): ReadonlyArray<{ readonly element: number; readonly sign: 1 | -1 }> | 'indeterminate-loop' {
    const edge = this.ideal[this.idealOf[element] as number];
    if (edge === undefined) return [];
    const side = this.joinedTo(edge.b, element);
    if (side.has(edge.a)) return 'indeterminate-loop';
    return this.compiled.elements.flatMap(({ index, a, b }): { element: number; sign: 1 | -1 }[] => {
      if (this.modes[index] === Mode.absent || (this.idealOf[index] as number) >= 0) return [];
      const inside = (side.has(a) ? 1 : 0) - (side.has(b) ? 1 : 0);
      return inside === 0 ? [] : [{ element: index, sign: inside as 1 | -1 }];
    });
  }

  /** Nodes joined to the start by ideal connections other than the one named. */
  private joinedTo(start: number, without: number): Set<number> {
    const side = new Set([start]);
    const queue = [start];
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      for (const edge of this.ideal) {
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
    const known = this.offsets[node];
    if (known !== undefined) return known;
    const root = this.groups.find(node);
    const sum: { parameter: number; sign: 1 | -1 }[] = [];
    let here = root;
    for (const index of this.groups.path(root, node)) {
      const element = this.compiled.elements[index] as CompiledElement;
      const forward = element.a === here;
      here = forward ? element.b : element.a;
      // v(a) = v(b) + voltage for an accumulator from a (positive) to b.
      if (element.kind === 'accumulator') sum.push({ parameter: element.primary, sign: forward ? -1 : 1 });
    }
    const found = sum.length === 0 ? NO_VOLTAGE : sum;
    this.offsets[node] = found;
    return found;
  }

  private number(): number {
    const names = new Map<number, number>();
    for (let node = 0; node < this.nodeCount; node += 1) {
      const root = this.groups.find(node);
      const known = names.get(root) ?? names.size;
      names.set(root, known);
      this.merged[node] = known;
    }
    return names.size;
  }

  private findIslands(): PlannedIsland[] {
    const parent = Int32Array.from({ length: this.size }, (_, i) => i);
    const find = (node: number): number => {
      let root = node;
      while (parent[root] !== root) root = parent[root] as number;
      return root;
    };
    for (const { ma, mb } of [...this.branches, ...this.capacitors]) {
      const ra = find(ma);
      const rb = find(mb);
      parent[Math.max(ra, rb)] = Math.min(ra, rb);
    }
    const nodes = new Map<number, number[]>();
    for (let node = 0; node < this.size; node += 1) {
      const root = find(node);
      const own = nodes.get(root);
      if (own === undefined) nodes.set(root, [node]);
      else own.push(node);
    }
    return [...nodes].map(([root, own], number) => {
      for (const node of own) this.islandOf[node] = number;
      const capacitors = this.capacitors.filter(({ ma, mb }) => ma !== mb && find(ma) === root);
      const common = commonNode(capacitors);
      return { nodes: own, capacitors, common, reference: common ?? capacitors[0]?.mb ?? root };
    });
  }

  private takingOrder(): number[] {
    const holds = new Set(this.capacitors.flatMap(({ ma, mb }) => (ma === mb ? [] : [ma, mb])));
    const references = new Set(this.islands.map(({ reference }) => reference));
    const around = Array.from({ length: this.size }, () => new Set<number>());
    for (const { ma, mb } of this.branches) {
      if (ma === mb) continue;
      around[ma]?.add(mb);
      around[mb]?.add(ma);
    }
    const left = new Set<number>();
    for (let node = 0; node < this.size; node += 1) if (!holds.has(node) && !references.has(node)) left.add(node);
    const order: number[] = [];
    while (left.size > 0) {
      let least = -1;
      for (const node of left) if (least < 0 || (around[node]?.size ?? 0) < (around[least]?.size ?? 0)) least = node;
      left.delete(least);
      order.push(least);
      const neighbours = [...(around[least] ?? [])];
      for (const one of neighbours) {
        around[one]?.delete(least);
        for (const other of neighbours) if (other !== one) around[one]?.add(other);
      }
    }
    return order;
  }
}

/** Relative to the voltages that disagree. */
const SAME_VOLTAGE = 1e-9;

function commonNode(capacitors: readonly PlannedCapacitor[]): number | undefined {
  const [first, ...rest] = capacitors;
  if (first === undefined) return undefined;
  return [first.mb, first.ma].find((node) => rest.every(({ ma, mb }) => ma === node || mb === node));
}

const plans = new WeakMap<CompiledCircuit, Map<string, StatePlan>>();

/** The plan of a switch state, made on its first use. */
export function planOf(compiled: CompiledCircuit, modes: Modes, values: Values): StatePlan {
  let own = plans.get(compiled);
  if (own === undefined) {
    own = new Map();
    plans.set(compiled, own);
  }
  const key = keyOf(compiled, modes, values);
  let plan = own.get(key);
  if (plan === undefined) {
    plan = new StatePlan(compiled, Uint8Array.from(modes), values);
    own.set(key, plan);
  }
  return plan;
}

/** Modes, and which parameters are 0, as one character an element. */
function keyOf(compiled: CompiledCircuit, modes: Modes, values: Values): string {
  let key = '';
  for (const { index, primary, secondary } of compiled.elements) {
    const first = values[primary] === 0 ? 4 : 0;
    const second = secondary >= 0 && values[secondary] === 0 ? 8 : 0;
    key += String.fromCharCode(65 + (modes[index] as number) + first + second);
  }
  return key;
}
