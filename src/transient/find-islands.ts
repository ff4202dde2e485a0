import { NodeUnion } from '../circuit/node-union.js';
import type { PlannedBranch, PlannedCapacitor, PlannedIsland } from './planned.js';

/** What conducts to one another, in order of the smallest merged node, and the island of each merged node. */
export function findIslands(
  size: number,
  branches: readonly PlannedBranch[],
  capacitors: readonly PlannedCapacitor[],
): { readonly islands: readonly PlannedIsland[]; readonly islandOf: readonly number[] } {
  const union = new NodeUnion(size);
  for (const { ma, mb } of branches) union.join(ma, mb);
  for (const { ma, mb } of capacitors) union.join(ma, mb);
  const islandOf = new Array<number>(size).fill(-1);
  const roots: number[] = [];
  const holding: PlannedCapacitor[][] = [];
  for (let node = 0; node < size; node += 1) {
    const root = union.find(node);
    if (root === node) {
      islandOf[node] = roots.length;
      roots.push(node);
      holding.push([]);
    } else islandOf[node] = islandOf[root] as number;
  }
  for (const capacitor of capacitors)
    if (capacitor.ma !== capacitor.mb) holding[islandOf[capacitor.ma] as number]?.push(capacitor);
  return { islands: holding.map((own, island) => describe(own, roots[island] as number)), islandOf };
}

function describe(capacitors: readonly PlannedCapacitor[], root: number): PlannedIsland {
  const [first] = capacitors;
  if (first === undefined) return { capacitors, common: undefined, others: [], reference: root };
  const touchedByAll = (node: number): boolean => capacitors.every(({ ma, mb }) => ma === node || mb === node);
  const common = touchedByAll(first.mb) ? first.mb : touchedByAll(first.ma) ? first.ma : undefined;
  const others: number[] = [];
  if (common !== undefined) {
    for (const { ma, mb } of capacitors) {
      const other = ma === common ? mb : ma;
      if (!others.includes(other)) others.push(other);
    }
    others.sort((a, b) => a - b);
  }
  return { capacitors, common, others, reference: common ?? first.mb };
}
