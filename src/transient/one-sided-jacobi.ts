/** Sweeps after which an unfinished rotation is a defect: quadratic convergence needs about six to ten. */
const MOST_SWEEPS = 60;

/**
 * Singular values and left vectors of X by one-sided Jacobi: columns are rotated in pairs until all are orthogonal.
 *
 * X is n × n, given as its columns one after the other, and is overwritten: column k ends as σₖ·uₖ. For X = B·D, D diagonal, the
 * relative error of every σ depends on the condition of B alone, not on how far apart the σ lie.
 * Source: J. Demmel, K. Veselić, "Jacobi's method is more accurate than QR", SIAM J. Matrix Anal. Appl. 13 (1992).
 *
 * @throws Error if an entry is not finite
 */
export function oneSidedJacobi(columns: Float64Array, n: number): void {
  for (let i = 0; i < n * n; i += 1) {
    if (!Number.isFinite(columns[i])) throw new Error('a matrix entry is not finite');
  }
  const tolerance = n * Number.EPSILON;
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep += 1) {
    let rotated = false;
    for (let p = 0; p < n - 1; p += 1) {
      for (let q = p + 1; q < n; q += 1) if (rotate(columns, n, p, q, tolerance)) rotated = true;
    }
    if (!rotated) return;
  }
  throw new Error('the rotations did not converge');
}

function rotate(columns: Float64Array, n: number, p: number, q: number, tolerance: number): boolean {
  const a = p * n;
  const b = q * n;
  let pp = 0;
  let qq = 0;
  let pq = 0;
  for (let i = 0; i < n; i += 1) {
    const x = columns[a + i] as number;
    const y = columns[b + i] as number;
    pp += x * x;
    qq += y * y;
    pq += x * y;
  }
  if (pp === 0 || qq === 0 || Math.abs(pq) <= tolerance * Math.sqrt(pp) * Math.sqrt(qq)) return false;
  const zeta = (qq - pp) / (2 * pq);
  const t = (zeta >= 0 ? 1 : -1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
  const c = 1 / Math.sqrt(1 + t * t);
  const s = c * t;
  for (let i = 0; i < n; i += 1) {
    const x = columns[a + i] as number;
    const y = columns[b + i] as number;
    columns[a + i] = c * x - s * y;
    columns[b + i] = s * x + c * y;
  }
  return true;
}
