import { NodeUnion } from '../circuit/node-union.js';
import type { CompiledCircuit, Modes, Values } from './compiled-circuit.js';
import { Elimination } from './elimination.js';
import { findIslands } from './find-islands.js';
import { IdealConnections } from './ideal-connections.js';
import type { PlannedBranch, PlannedCapacitor, PlannedCurrent, PlannedIsland } from './planned.js';
import { SortedElements } from './sort-elements.js';

/**
 * All of a switch state that does not depend on the numbers: which nodes are joined, which branches are left, which
 * islands there are. Made once for each set of modes (and of resistances that are 0), used for every set of values.
 */
export class StatePlan {
  readonly size: number;
  /** Merged node of each node. */
  readonly merged: readonly number[];
  /** Island of each merged node. */
  readonly islandOf: readonly number[];
  readonly branches: readonly PlannedBranch[];
  readonly capacitors: readonly PlannedCapacitor[];
  readonly currents: readonly PlannedCurrent[];
  /** Islands with a capacitor. */
  readonly holding: readonly PlannedIsland[];
  /** Of all islands together: the capacitors' nodes less one of each group of capacitors joined to each other. */
  readonly stateCount: number;
  /** Purely resistive merged nodes leaving the network: those that hold no capacitor and are no island's reference. */
  readonly elimination: Elimination;
  /** Edge of each branch in the elimination; −1: its ends are one node. */
  readonly branchEdge: readonly number[];
  /** True where capacitors without resistance may have to share charge at the start. */
  readonly mayShareCharge: boolean;
  /** Rate of each drive channel, 1/s; channel 0 is constant. */
  readonly channelRates: readonly number[];
  /** By element index; −1: none. */
  readonly branchOf: readonly number[];
  readonly capacitorOf: readonly number[];
  readonly currentOf: readonly number[];
  readonly ideal: IdealConnections;

  /** Which parameters are 0. */
  private readonly zero: readonly boolean[];

  constructor(
    compiled: CompiledCircuit,
    private readonly modes: Modes,
    values: Values,
  ) {
    const sorted = new SortedElements(compiled, modes, values);
    const { branches, capacitors, currents } = sorted;
    this.ideal = new IdealConnections(compiled, modes, sorted.ties, sorted.nodeCount);
    const { merged, size } = this.ideal.merge();
    for (const part of branches) {
      part.ma = merged[part.a] as number;
      part.mb = merged[part.b] as number;
    }
    for (const part of capacitors) {
      part.ma = merged[part.a] as number;
      part.mb = merged[part.b] as number;
    }
    for (const part of currents) {
      part.ma = merged[part.element.a] as number;
      part.mb = merged[part.element.b] as number;
    }
    this.size = size;
    this.merged = merged;
    this.channelRates = sorted.channelRates;
    this.branches = branches;
    this.capacitors = capacitors;
    this.currents = currents;
    const count = compiled.elements.length;
    // A capacitor with ESR is a branch too, but its current is the capacitor's.
    this.branchOf = places(count, branches, ({ element }) => element.kind !== 'capacitor');
    this.capacitorOf = places(count, capacitors);
    this.currentOf = places(count, currents);
    const { islands, islandOf } = findIslands(size, branches, capacitors);
    this.islandOf = islandOf;
    this.holding = islands.filter((island) => island.capacitors.length > 0);
    this.stateCount = countStates(size, capacitors);
    // A capacitor that adds no state closes a loop of capacitors without resistance, or is shorted.
    this.mayShareCharge = capacitors.length > this.stateCount;
    const stays = new Array<boolean>(size).fill(false);
    for (const { ma, mb } of capacitors) {
      if (ma === mb) continue;
      stays[ma] = true;
      stays[mb] = true;
    }
    for (const { reference } of islands) stays[reference] = true;
    this.elimination = new Elimination(size, branches, stays);
    this.branchEdge = branches.map(({ ma, mb }) => (ma === mb ? -1 : this.elimination.edge(ma, mb)));
    this.zero = compiled.parameters.map((_, index) => values[index] === 0);
  }

  /** Whether the plan is that of these modes, and of these values' zeros. */
  isOf(modes: Modes, values: Values): boolean {
    const { zero } = this;
    for (let index = 0; index < modes.length; index += 1) if (modes[index] !== this.modes[index]) return false;
    for (let index = 0; index < zero.length; index += 1) if ((values[index] === 0) !== zero[index]) return false;
    return true;
  }
}

function places<T extends { readonly element: { readonly index: number } }>(
  count: number,
  parts: readonly T[],
  counts: (part: T) => boolean = () => true,
): readonly number[] {
  const place = new Array<number>(count).fill(-1);
  parts.forEach((part, k) => {
    if (counts(part)) place[part.element.index] = k;
  });
  return place;
}

function countStates(size: number, capacitors: readonly PlannedCapacitor[]): number {
  const groups = new NodeUnion(size);
  let count = 0;
  for (const { ma, mb } of capacitors) {
    if (groups.find(ma) === groups.find(mb)) continue;
    groups.join(ma, mb);
    count += 1;
  }
  return count;
}
