import { type Big, big } from './big.js';

export type BigMatrix = Big[][];

/** Solves M·x = b for every column of b, by elimination with the largest pivot of each column. */
export function solveBig(matrix: BigMatrix, right: BigMatrix): BigMatrix {
  const n = matrix.length;
  const work = matrix.map((row, i) => [...row, ...right[i]!]);
  for (let k = 0; k < n; k += 1) {
    let pivot = k;
    for (let i = k + 1; i < n; i += 1) if (work[i]![k]!.abs().gt(work[pivot]![k]!.abs())) pivot = i;
    [work[k], work[pivot]] = [work[pivot]!, work[k]!];
    const row = work[k]!;
    if (row[k]!.isZero()) throw new Error('the matrix is singular');
    for (let i = 0; i < n; i += 1) {
      const line = work[i]!;
      if (i === k || line[k]!.isZero()) continue;
      const factor = line[k]!.div(row[k]!);
      for (let j = k; j < line.length; j += 1) if (!row[j]!.isZero()) line[j] = line[j]!.minus(factor.times(row[j]!));
    }
  }
  return work.map((row, k) => row.slice(n).map((value) => value.div(row[k]!)));
}

/** Eigenvalues of a symmetric matrix, falling: cyclic two-sided Jacobi until what is off the diagonal is below 50 digits. */
export function eigenvaluesBig(symmetric: BigMatrix): Big[] {
  const a = symmetric.map((row) => [...row]);
  const n = a.length;
  const size = a.flat().reduce((sum, x) => sum.plus(x.abs()), big(0));
  const negligible = size.times('1e-55');
  for (let sweep = 0; sweep < 60; sweep += 1) {
    let left = big(0);
    for (let p = 0; p < n; p += 1) {
      for (let q = p + 1; q < n; q += 1) {
        const apq = a[p]![q]!;
        if (apq.abs().lt(negligible)) continue;
        left = left.plus(apq.abs());
        const theta = a[q]![q]!.minus(a[p]![p]!).div(apq.times(2));
        const t = big(theta.isNegative() ? -1 : 1).div(theta.abs().plus(theta.times(theta).plus(1).sqrt()));
        const c = big(1).div(t.times(t).plus(1).sqrt());
        const s = t.times(c);
        for (let k = 0; k < n; k += 1) {
          const x = a[k]![p]!;
          const y = a[k]![q]!;
          a[k]![p] = c.times(x).minus(s.times(y));
          a[k]![q] = s.times(x).plus(c.times(y));
        }
        for (let k = 0; k < n; k += 1) {
          const x = a[p]![k]!;
          const y = a[q]![k]!;
          a[p]![k] = c.times(x).minus(s.times(y));
          a[q]![k] = s.times(x).plus(c.times(y));
        }
      }
    }
    if (left.isZero()) break;
  }
  return a.map((row, k) => row[k]!).sort((x, y) => y.cmp(x));
}

export function timesBig(a: BigMatrix, b: BigMatrix): BigMatrix {
  return a.map((row) =>
    b[0]!.map((_, j) =>
      row.reduce((sum, x, k) => (x.isZero() || b[k]![j]!.isZero() ? sum : sum.plus(x.times(b[k]![j]!))), big(0)),
    ),
  );
}

/**
 * e^M by scaling and squaring of its Taylor series, with guard digits for the squarings.
 * Source: C. Moler, C. Van Loan, "Nineteen dubious ways to compute the exponential of a matrix", SIAM Review 45 (2003), method 3.
 */
export function exponentialBig(matrix: BigMatrix): BigMatrix {
  const n = matrix.length;
  const norm = Math.max(...matrix.map((row) => row.reduce((sum, x) => sum + x.abs().toNumber(), 0)), 1e-300);
  const halvings = Math.max(0, Math.ceil(Math.log2(norm)) + 8);
  const scale = big(2).pow(-halvings);
  const small = matrix.map((row) => row.map((x) => x.times(scale)));
  const identity = small.map((row, i) => row.map((_, j) => big(i === j ? 1 : 0)));
  let term = identity;
  let sum = identity.map((row) => [...row]);
  // 2^−8 per factor: 22 terms leave less than 1e-70.
  for (let k = 1; k <= 22; k += 1) {
    term = timesBig(term, small).map((row) => row.map((x) => x.div(k)));
    sum = sum.map((row, i) => row.map((x, j) => x.plus(term[i]![j]!)));
  }
  for (let k = 0; k < halvings; k += 1) sum = timesBig(sum, sum);
  if (sum.length !== n) throw new Error('the exponential lost a row');
  return sum;
}
