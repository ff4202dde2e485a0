/** A capacitor between two merged nodes: its voltage is v(a) − v(b) + offset. */
export interface SharingCapacitor {
  readonly a: number;
  readonly b: number;
  /** F */
  readonly c: number;
  /** V fixed between the two terminals by ideal sources. */
  readonly offset: number;
  /** V just before. */
  readonly before: number;
}

export interface SharingResult {
  /** V just after, one a capacitor. */
  readonly after: readonly number[];
  /** J turned to heat at the instant. */
  readonly energyLost: number;
  /** Capacitors that an ideal source holds at another voltage than they stood at: infinite current. */
  readonly infinite: readonly number[];
}

/** Relative to the largest voltage in play: below this nothing moved. */
const UNMOVED = 1e-9;

/**
 * The instant at which ideal connections close: charge is conserved on every node, so the voltages after are those closest
 * to the voltages before in the norm of stored energy. Without a loop of capacitors nothing moves.
 */
export function sharedCharge({ capacitors }: { readonly capacitors: readonly SharingCapacitor[] }): SharingResult {
  const scale = Math.max(1e-9, ...capacitors.map((each) => Math.max(Math.abs(each.before), Math.abs(each.offset))));
  const after = nearestConsistent(capacitors, (each) => each.before);
  let energyLost = 0;
  const moved: number[] = [];
  capacitors.forEach((each, k) => {
    const now = after[k] as number;
    // The heat of a projection is the energy of what it takes away: no difference of stored energies.
    energyLost += 0.5 * each.c * (each.before - now) ** 2;
    if (Math.abs(now - each.before) > UNMOVED * scale) moved.push(k);
  });
  if (moved.length === 0) return { after, energyLost: 0, infinite: [] };
  // A loop whose ideal sources do not cancel shows as a voltage even where every capacitor is empty.
  const forced = nearestConsistent(capacitors, () => 0);
  const infinite = moved.filter((k) => Math.abs(forced[k] as number) > UNMOVED * scale);
  return { after, energyLost, infinite };
}

function nearestConsistent(
  capacitors: readonly SharingCapacitor[],
  start: (each: SharingCapacitor) => number,
): number[] {
  const after = capacitors.map((each) => (each.a === each.b ? each.offset : start(each)));
  const component = components(capacitors);
  for (const members of component) {
    const nodes = [
      ...new Set(
        members.flatMap((k) => [(capacitors[k] as SharingCapacitor).a, (capacitors[k] as SharingCapacitor).b]),
      ),
    ].sort((x, y) => x - y);
    // As many capacitors as a tree needs: nothing to share.
    if (members.length === nodes.length - 1) continue;
    const potentials = leastSquares(capacitors, members, nodes, start);
    for (const k of members) {
      const each = capacitors[k] as SharingCapacitor;
      after[k] = (potentials.get(each.a) as number) - (potentials.get(each.b) as number) + each.offset;
    }
  }
  return after;
}

/** Capacitors (not those both of whose ends are one node) by connected group. */
function components(capacitors: readonly SharingCapacitor[]): number[][] {
  const group = new Map<number, number[]>();
  const owner = new Map<number, number[]>();
  capacitors.forEach((each, k) => {
    if (each.a === each.b) return;
    const left = owner.get(each.a);
    const right = owner.get(each.b);
    const merged = [...new Set([...(left ?? []), ...(right ?? []), k])];
    for (const member of merged) {
      const { a, b } = capacitors[member] as SharingCapacitor;
      owner.set(a, merged);
      owner.set(b, merged);
      group.set(member, merged);
    }
  });
  return [...new Set(group.values())].map((members) => [...members].sort((x, y) => x - y));
}

/** Solves Aᵀ·C·A·v = Aᵀ·C·(start − offset), the first node at 0, by elimination on the (positive definite) matrix. */
function leastSquares(
  capacitors: readonly SharingCapacitor[],
  members: readonly number[],
  nodes: readonly number[],
  start: (each: SharingCapacitor) => number,
): Map<number, number> {
  const n = nodes.length - 1;
  const place = new Map(nodes.map((node, k) => [node, k - 1]));
  const matrix = Array.from({ length: n }, () => new Float64Array(n + 1));
  for (const k of members) {
    const each = capacitors[k] as SharingCapacitor;
    const a = place.get(each.a) as number;
    const b = place.get(each.b) as number;
    const charge = each.c * (start(each) - each.offset);
    const at = (row: number, column: number, value: number): void => {
      const line = matrix[row];
      if (line !== undefined && column >= 0) line[column] = (line[column] as number) + value;
    };
    at(a, a, each.c);
    at(b, b, each.c);
    at(a, b, -each.c);
    at(b, a, -each.c);
    at(a, n, charge);
    at(b, n, -charge);
  }
  for (let k = 0; k < n; k += 1) {
    const pivot = matrix[k] as Float64Array;
    for (let i = k + 1; i < n; i += 1) {
      const line = matrix[i] as Float64Array;
      const factor = (line[k] as number) / (pivot[k] as number);
      for (let j = k; j <= n; j += 1) line[j] = (line[j] as number) - factor * (pivot[j] as number);
    }
  }
  const potentials = new Map<number, number>([[nodes[0] as number, 0]]);
  for (let k = n - 1; k >= 0; k -= 1) {
    const line = matrix[k] as Float64Array;
    let sum = line[n] as number;
    for (let j = k + 1; j < n; j += 1) sum -= (line[j] as number) * (potentials.get(nodes[j + 1] as number) as number);
    potentials.set(nodes[k + 1] as number, sum / (line[k] as number));
  }
  return potentials;
}
