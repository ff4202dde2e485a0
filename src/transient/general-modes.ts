import type { ConductanceNetwork } from './conductance-network.js';
import {
  DD_ZERO,
  type DoubleDouble,
  ddAdd,
  ddDivide,
  ddFrom,
  ddMultiply,
  ddNegate,
  ddSquareRoot,
  ddSubtract,
} from './double-double.js';
import { oneSidedJacobi } from './one-sided-jacobi.js';
import type { SolvedIsland } from './solved-island.js';

type Matrix = DoubleDouble[][];

interface BetweenNodes {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly voltage: number;
}

/** Pivots below this share of the first are no leak but the rounding of 32-digit arithmetic. */
const NO_LEAK = 1e-26;

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

  const capacitance = capacitanceMatrix(nodes, branches);
  const cholesky = choleskyFactor(capacitance);
  const scaled = congruence(cholesky, reduced);
  const { columns, loose, condition } = pivotedColumns(scaled);
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
    steady.set(solveSemidefinite(reduced, drive), c * n);
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

function dot(row: readonly DoubleDouble[], other: (k: number) => DoubleDouble): DoubleDouble {
  return row.reduce((sum, value, k) => ddAdd(sum, ddMultiply(value, other(k))), DD_ZERO);
}

function multiply(a: Matrix, b: Matrix): Matrix {
  return a.map((row) => (b[0] ?? []).map((_, j) => dot(row, (k) => b[k]?.[j] ?? DD_ZERO)));
}

/** Gauss–Jordan on a symmetric positive definite matrix. */
function invert(matrix: Matrix): Matrix {
  const n = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => ddFrom(i === j ? 1 : 0))]);
  for (let k = 0; k < n; k += 1) {
    const pivotRow = work[k] ?? [];
    const pivot = pivotRow[k] ?? DD_ZERO;
    work[k] = pivotRow.map((value) => ddDivide(value, pivot));
    for (let i = 0; i < n; i += 1) {
      const row = work[i] ?? [];
      const factor = row[k] ?? DD_ZERO;
      if (i !== k && factor.hi !== 0)
        work[i] = row.map((value, j) => ddSubtract(value, ddMultiply(factor, work[k]?.[j] ?? DD_ZERO)));
    }
  }
  return work.map((row) => row.slice(n));
}

/** K with K·Kᵀ = matrix, lower triangular. */
function choleskyFactor(matrix: Matrix): Matrix {
  const n = matrix.length;
  const factor: Matrix = matrix.map((row) => row.map(() => DD_ZERO));
  for (let i = 0; i < n; i += 1) {
    const row = factor[i] ?? [];
    for (let j = 0; j <= i; j += 1) {
      const other = factor[j] ?? [];
      let sum = matrix[i]?.[j] ?? DD_ZERO;
      for (let k = 0; k < j; k += 1) sum = ddSubtract(sum, ddMultiply(row[k] ?? DD_ZERO, other[k] ?? DD_ZERO));
      row[j] = i === j ? ddSquareRoot(sum) : ddDivide(sum, other[j] ?? DD_ZERO);
    }
  }
  return factor;
}

/** Solves K·x = b. */
function solveLower(factor: Matrix, b: readonly DoubleDouble[]): DoubleDouble[] {
  const x: DoubleDouble[] = [];
  factor.forEach((row, i) => {
    let sum = b[i] ?? DD_ZERO;
    for (let k = 0; k < i; k += 1) sum = ddSubtract(sum, ddMultiply(row[k] ?? DD_ZERO, x[k] ?? DD_ZERO));
    x.push(ddDivide(sum, row[i] ?? DD_ZERO));
  });
  return x;
}

/** Solves Kᵀ·x = b in double precision. */
function solveUpper(factor: Matrix, b: Float64Array): Float64Array {
  const n = factor.length;
  const x = Float64Array.from(b);
  for (let i = n - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < n; k += 1) x[i] = (x[i] as number) - (factor[k]?.[i]?.hi ?? 0) * (x[k] as number);
    x[i] = (x[i] as number) / (factor[i]?.[i]?.hi ?? 1);
  }
  return x;
}

function solveCholesky(factor: Matrix, b: readonly DoubleDouble[]): Float64Array {
  return solveUpper(
    factor,
    Float64Array.from(solveLower(factor, b), (value) => value.hi),
  );
}

/** K⁻¹·G·K⁻ᵀ. */
function congruence(factor: Matrix, g: Matrix): Matrix {
  const half = transpose(g.map((row) => solveLower(factor, row)));
  return half.map((row) => solveLower(factor, row));
}

function transpose(matrix: Matrix): Matrix {
  return (matrix[0] ?? []).map((_, j) => matrix.map((row) => row[j] ?? DD_ZERO));
}

/** P·L·D^½ of the pivoted factorisation S = P·L·D·Lᵀ·Pᵀ, columns one after the other, and null vectors of S. */
function pivotedColumns(matrix: Matrix): { columns: Float64Array; loose: Float64Array[]; condition: number } {
  const n = matrix.length;
  const work = matrix.map((row) => [...row]);
  const columns = new Float64Array(n * n);
  const left = new Set<number>(work.keys());
  const pivots: { index: number; column: DoubleDouble[] }[] = [];
  let first = 0;
  let least = 1;
  while (left.size > 0) {
    let pivot = -1;
    for (const k of left) if (pivot < 0 || (work[k]?.[k]?.hi ?? 0) > (work[pivot]?.[pivot]?.hi ?? 0)) pivot = k;
    const value = work[pivot]?.[pivot] ?? DD_ZERO;
    if (first === 0) first = value.hi;
    if (!(value.hi > first * NO_LEAK)) break;
    least = value.hi / first;
    left.delete(pivot);
    const column = work.map((row, i) =>
      i === pivot ? ddFrom(1) : left.has(i) ? ddDivide(row[pivot] ?? DD_ZERO, value) : DD_ZERO,
    );
    const root = ddSquareRoot(value);
    column.forEach((entry, i) => {
      columns[pivots.length * n + i] = ddMultiply(entry, root).hi;
    });
    for (const i of left) {
      const row = work[i] ?? [];
      const scale = ddMultiply(column[i] ?? DD_ZERO, value);
      for (const j of left) row[j] = ddSubtract(row[j] ?? DD_ZERO, ddMultiply(scale, column[j] ?? DD_ZERO));
    }
    pivots.push({ index: pivot, column });
  }
  const loose = [...left].map((index) => {
    // Lᵀ·z = e: back through the pivots.
    const z: DoubleDouble[] = work.map((_, i) => ddFrom(i === index ? 1 : 0));
    for (const { index: p, column } of [...pivots].reverse()) {
      z[p] = ddNegate(
        column.reduce((sum, entry, i) => (i === p ? sum : ddAdd(sum, ddMultiply(entry, z[i] ?? DD_ZERO))), DD_ZERO),
      );
    }
    return Float64Array.from(z, (value) => value.hi);
  });
  return { columns, loose, condition: 1 / least };
}

/** A solution of G·x = b for a positive semidefinite G, 0 where G leaves it free. */
function solveSemidefinite(g: Matrix, b: readonly DoubleDouble[]): Float64Array {
  const n = g.length;
  const work = g.map((row, i) => [...row, b[i] ?? DD_ZERO]);
  const left = new Set<number>(work.keys());
  const pivots: number[] = [];
  let first = 0;
  while (left.size > 0) {
    let pivot = -1;
    for (const k of left) if (pivot < 0 || (work[k]?.[k]?.hi ?? 0) > (work[pivot]?.[pivot]?.hi ?? 0)) pivot = k;
    const row = work[pivot] ?? [];
    const value = row[pivot] ?? DD_ZERO;
    if (first === 0) first = value.hi;
    if (!(value.hi > first * NO_LEAK)) break;
    left.delete(pivot);
    pivots.push(pivot);
    for (const i of left) {
      const line = work[i] ?? [];
      const factor = ddDivide(line[pivot] ?? DD_ZERO, value);
      for (let j = 0; j <= n; j += 1) line[j] = ddSubtract(line[j] ?? DD_ZERO, ddMultiply(factor, row[j] ?? DD_ZERO));
    }
  }
  const x: DoubleDouble[] = work.map(() => DD_ZERO);
  const known = new Set<number>(left);
  for (const pivot of pivots.reverse()) {
    const row = work[pivot] ?? [];
    let sum = row[n] ?? DD_ZERO;
    for (const j of known) sum = ddSubtract(sum, ddMultiply(row[j] ?? DD_ZERO, x[j] ?? DD_ZERO));
    x[pivot] = ddDivide(sum, row[pivot] ?? DD_ZERO);
    known.add(pivot);
  }
  return Float64Array.from(x, (value) => value.hi);
}

function project(vector: Float64Array, unit: Float64Array): void {
  const share = vector.reduce((sum, x, k) => sum + x * (unit[k] as number), 0);
  unit.forEach((x, k) => {
    vector[k] = (vector[k] as number) - share * x;
  });
}
