import {
  DD_ZERO,
  type DoubleDouble,
  ddAdd,
  ddDivide,
  ddFrom,
  ddMultiply,
  ddSquareRoot,
  ddSubtract,
} from './double-double.js';

/** Rows of numbers of 32 digits. Everything here is the textbook's dense algebra, in that arithmetic. */
export type Matrix = DoubleDouble[][];

/** Σ rowₖ·other(k). */
export function dot(row: readonly DoubleDouble[], other: (k: number) => DoubleDouble): DoubleDouble {
  return row.reduce((sum, value, k) => ddAdd(sum, ddMultiply(value, other(k))), DD_ZERO);
}

/** A·B. */
export function multiply(a: Matrix, b: Matrix): Matrix {
  return a.map((row) => (b[0] ?? []).map((_, j) => dot(row, (k) => b[k]?.[j] ?? DD_ZERO)));
}

/** Gauss–Jordan on a symmetric positive definite matrix. */
export function invert(matrix: Matrix): Matrix {
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
export function choleskyFactor(matrix: Matrix): Matrix {
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
export function solveUpper(factor: Matrix, b: Float64Array): Float64Array {
  const n = factor.length;
  const x = Float64Array.from(b);
  for (let i = n - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < n; k += 1) x[i] = (x[i] as number) - (factor[k]?.[i]?.hi ?? 0) * (x[k] as number);
    x[i] = (x[i] as number) / (factor[i]?.[i]?.hi ?? 1);
  }
  return x;
}

/** Solves K·Kᵀ·x = b, the last half in double precision. */
export function solveCholesky(factor: Matrix, b: readonly DoubleDouble[]): Float64Array {
  return solveUpper(
    factor,
    Float64Array.from(solveLower(factor, b), (value) => value.hi),
  );
}

/** K⁻¹·G·K⁻ᵀ. */
export function congruence(factor: Matrix, g: Matrix): Matrix {
  const half = transpose(g.map((row) => solveLower(factor, row)));
  return half.map((row) => solveLower(factor, row));
}

function transpose(matrix: Matrix): Matrix {
  return (matrix[0] ?? []).map((_, j) => matrix.map((row) => row[j] ?? DD_ZERO));
}
