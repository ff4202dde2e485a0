import { NodeUnion } from '../circuit/node-union.js';
import type { ConductanceNetwork } from './conductance-network.js';
import {
  choleskyFactor,
  congruence,
  dot,
  invert,
  type Matrix,
  multiply,
  solveCholesky,
  solveUpper,
} from './dense-matrix.js';
import { DD_ZERO, type DoubleDouble, ddAdd, ddFrom, ddSubtract } from './double-double.js';
import { oneSidedJacobi } from './one-sided-jacobi.js';
import { pivotedColumns, solveSemidefinite } from './pivoted-factors.js';
import type { SolvedIsland } from './solved-island.js';

interface BetweenNodes {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly voltage: number;
}

/**
 * Modes of an island whose capacitors share no common node: to chassis, in series banks, or in groups joined by resistances only.
 *
 * States are node potentials relative to one reference node in each group of connected capacitors; the reference nodes of
 * further groups follow from Kirchhoff's law and are solved out. That needs subtractions, so everything up to the factors
 * is done with 32 digits (double-double): a leak 10⁻¹⁶ of a cable still keeps 16 digits of its own.
 *
 * @param network its purely resistive nodes taken out
 * @param reference node that the island's potentials are relative to; must carry a capacitor
 */
export function generalModes(
  network: ConductanceNetwork,
  reference: number,
  branches: readonly BetweenNodes[],
): SolvedIsland {
  const groups = capacitorGroups(branches, reference);
  const roots = groups.map((group) => group[0] as number);
  const nodes = groups.flatMap((group) => group.slice(1));
  const rootOf = new Map(groups.flatMap((group) => group.map((node) => [node, group[0] as number] as const)));
  const floating = roots.filter((root) => root !== reference);
  const n = nodes.length;
  const all = groups.flat();

  const nodal = (a: number, b: number): DoubleDouble => {
    if (a !== b) return ddFrom(-network.conductance(a, b));
    return all.reduce((sum, other) => (other === a ? sum : ddAdd(sum, ddFrom(network.conductance(a, other)))), DD_ZERO);
  };
  const members = (root: number): number[] => all.filter((node) => rootOf.get(node) === root);
  const sumOver = (rows: readonly number[], columns: readonly number[]): DoubleDouble =>
    rows.reduce((sum, a) => columns.reduce((inner, b) => ddAdd(inner, nodal(a, b)), sum), DD_ZERO);
  const own = nodes.map((a) => nodes.map((b) => nodal(a, b)));
  const cross = nodes.map((a) => floating.map((root) => sumOver([a], members(root))));
  const common = floating.map((a) => floating.map((b) => sumOver(members(a), members(b))));
  const into = (node: number, channel: number): DoubleDouble =>
    all.reduce((sum, other) => ddSubtract(sum, ddFrom(network.shortCircuit(node, other, channel))), DD_ZERO);

  const inverse = invert(common);
  const through = multiply(cross, inverse);
  const reduced = own.map((row, i) =>
    row.map((value, j) =>
      ddSubtract(
        value,
        dot(through[i] ?? [], (k) => cross[j]?.[k] ?? DD_ZERO),
      ),
    ),
  );
  const drives: DoubleDouble[][] = [];
  const floatingDrives: DoubleDouble[][] = [];
  for (let c = 0; c < network.channels; c += 1) {
    const rootDrive = floating.map((root) => members(root).reduce((sum, node) => ddAdd(sum, into(node, c)), DD_ZERO));
    floatingDrives.push(rootDrive);
    drives.push(
      nodes.map((node, i) =>
        ddSubtract(
          into(node, c),
          dot(through[i] ?? [], (k) => rootDrive[k] ?? DD_ZERO),
        ),
      ),
    );
  }
  const channels = Array.from({ length: network.channels }, (_, c) => c);
  const rootCurrents = channels.map((c) =>
    floating.map((root) => ddFrom(members(root).reduce((sum, node) => sum + network.injection(node, c), 0))),
  );
  const currents = channels.map((c) =>
    nodes.map((node, i) =>
      ddSubtract(
        ddFrom(network.injection(node, c)),
        dot(through[i] ?? [], (k) => rootCurrents[c]?.[k] ?? DD_ZERO),
      ),
    ),
  );

  // Without its capacitors the island falls into pieces; each but the first may stand anywhere, and stays there.
  const rank = n - (pieceCount(network, all) - 1);
  const capacitance = capacitanceMatrix(nodes, branches);
  const cholesky = choleskyFactor(capacitance);
  const scaled = congruence(cholesky, reduced);
  const { columns, loose, condition } = pivotedColumns(scaled, rank);
  oneSidedJacobi(columns, n);
  const units: Float64Array[] = [];
  const rates: number[] = [];
  for (let i = 0; i < n; i += 1) {
    const column = columns.slice(i * n, (i + 1) * n);
    const square = column.reduce((sum, x) => sum + x * x, 0);
    if (square === 0) continue;
    units.push(column.map((x) => x / Math.sqrt(square)));
    rates.push(square);
  }
  for (const vector of loose) {
    for (let pass = 0; pass < 2; pass += 1) for (const unit of units) project(vector, unit);
    const norm = Math.sqrt(vector.reduce((sum, x) => sum + x * x, 0));
    units.push(vector.map((x) => x / norm));
    rates.push(0);
  }

  const shapes = new Float64Array(n * n);
  const weights = new Float64Array(n * n);
  units.forEach((unit, i) => {
    const shape = solveUpper(cholesky, unit);
    for (let k = 0; k < n; k += 1) {
      shapes[k * n + i] = shape[k] as number;
      let weight = 0;
      for (let j = 0; j <= k; j += 1) weight += (unit[j] as number) * (cholesky[k]?.[j]?.hi ?? 0);
      weights[i * n + k] = weight;
    }
  });

  const steady = new Float64Array(network.channels * n);
  drives.forEach((drive, c) => {
    steady.set(solveSemidefinite(reduced, drive, rank), c * n);
  });
  const injected = Float64Array.from(currents.flatMap((each) => [...solveCholesky(cholesky, each)]));
  const potentials = potentialsOf(branches, roots);
  return {
    nodes,
    modes: { rates: Float64Array.from(rates), shapes, weights, steady },
    injected,
    start: Float64Array.from(nodes, (node) => potentials.get(node) ?? 0),
    dependent: floating.map((root, r) => ({
      node: root,
      shares: Float64Array.from(nodes, (_, k) => -dot(inverse[r] ?? [], (j) => cross[k]?.[j] ?? DD_ZERO).hi),
      channels: Float64Array.from(
        floatingDrives,
        (drive, c) => dot(inverse[r] ?? [], (j) => ddAdd(drive[j] ?? DD_ZERO, rootCurrents[c]?.[j] ?? DD_ZERO)).hi,
      ),
      carries: members(root).filter((node) => node !== root),
    })),
    error: condition * 1e-31,
  };
}

/** Into how many pieces the nodes fall that conductances join. */
function pieceCount(network: ConductanceNetwork, nodes: readonly number[]): number {
  const union = new NodeUnion(network.size);
  let pieces = nodes.length;
  nodes.forEach((a, k) => {
    for (const b of nodes.slice(k + 1)) {
      if (network.conductance(a, b) === 0 || union.find(a) === union.find(b)) continue;
      union.join(a, b);
      pieces -= 1;
    }
  });
  return pieces;
}

/** Nodes of each connected group of capacitors, its reference first; the island's reference leads the first group. */
function capacitorGroups(branches: readonly BetweenNodes[], reference: number): number[][] {
  const groups: number[][] = [];
  const left = new Set(branches.flatMap(({ a, b }) => [a, b]));
  const starts = [reference, ...[...left].sort((x, y) => x - y)];
  for (const start of starts) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (let k = 0; k < group.length; k += 1) {
      for (const { a, b } of branches) {
        const next = a === group[k] ? b : b === group[k] ? a : -1;
        if (next >= 0 && left.delete(next)) group.push(next);
      }
    }
    groups.push(group);
  }
  return groups;
}

/** Node potentials relative to each group's reference, read off the capacitors' voltages. */
function potentialsOf(branches: readonly BetweenNodes[], roots: readonly number[]): Map<number, number> {
  const potentials = new Map<number, number>(roots.map((root) => [root, 0]));
  const queue = [...roots];
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    const base = potentials.get(node) as number;
    for (const { a, b, voltage } of branches) {
      const next = a === node ? b : b === node ? a : -1;
      if (next < 0 || potentials.has(next)) continue;
      potentials.set(next, a === node ? base - voltage : base + voltage);
      queue.push(next);
    }
  }
  return potentials;
}

function capacitanceMatrix(nodes: readonly number[], branches: readonly BetweenNodes[]): Matrix {
  const place = new Map(nodes.map((node, k) => [node, k]));
  const matrix: Matrix = nodes.map(() => nodes.map(() => DD_ZERO));
  const add = (row: number | undefined, column: number | undefined, value: number): void => {
    const line = row === undefined ? undefined : matrix[row];
    if (line !== undefined && column !== undefined) line[column] = ddAdd(line[column] ?? DD_ZERO, ddFrom(value));
  };
  for (const { a, b, c } of branches) {
    const i = place.get(a);
    const j = place.get(b);
    add(i, i, c);
    add(j, j, c);
    add(i, j, -c);
    add(j, i, -c);
  }
  return matrix;
}

function project(vector: Float64Array, unit: Float64Array): void {
  const share = vector.reduce((sum, x, k) => sum + x * (unit[k] as number), 0);
  unit.forEach((x, k) => {
    vector[k] = (vector[k] as number) - share * x;
  });
}
