import type { Matrix } from './dense-matrix.js';
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

/** Pivots below this share of the first are no leak but the rounding of 32-digit arithmetic. */
const NO_LEAK = 1e-26;

/**
 * P·L·D^½ of the pivoted factorisation S = P·L·D·Lᵀ·Pᵀ, columns one after the other, and null vectors of S.
 * @param rank of S, as its graph tells; what is left after so many pivots is rounding
 */
export function pivotedColumns(
  matrix: Matrix,
  rank: number,
): { columns: Float64Array; loose: Float64Array[]; condition: number } {
  const n = matrix.length;
  const work = matrix.map((row) => [...row]);
  const columns = new Float64Array(n * n);
  const left = new Set<number>(work.keys());
  const pivots: { index: number; column: DoubleDouble[] }[] = [];
  let first = 0;
  let least = 1;
  while (pivots.length < rank) {
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

/** A solution of G·x = b for a positive semidefinite G of a known rank, 0 where G leaves it free. */
export function solveSemidefinite(g: Matrix, b: readonly DoubleDouble[], rank: number): Float64Array {
  const n = g.length;
  const work = g.map((row, i) => [...row, b[i] ?? DD_ZERO]);
  const left = new Set<number>(work.keys());
  const pivots: number[] = [];
  let first = 0;
  while (pivots.length < rank) {
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
