import { describe, expect, it } from 'vitest';
import { oneSidedJacobi } from '../../src/transient/one-sided-jacobi.js';
import { big, relativeError } from './big.js';
import { eigenvaluesBig } from './big-matrix.js';
import { decades, random } from './random.js';

const column = (columns: Float64Array, n: number, k: number) => [...columns.slice(k * n, (k + 1) * n)];
const dot = (x: readonly number[], y: readonly number[]) => x.reduce((sum, each, k) => sum + each * y[k]!, 0);

/** X·Xᵀ: its eigenvalues are the squares of the singular values. */
function gramBig(columns: Float64Array, n: number) {
  const entries = [...columns].map(big);
  return Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_unused, j) => {
      let sum = big(0);
      for (let k = 0; k < n; k += 1) sum = sum.plus(entries[k * n + i]!.times(entries[k * n + j]!));
      return sum;
    }),
  );
}

function worstError(original: Float64Array, rotated: Float64Array, n: number): number {
  const exact = eigenvaluesBig(gramBig(original, n));
  const squares = Array.from({ length: n }, (_, k) => dot(column(rotated, n, k), column(rotated, n, k))).sort(
    (a, b) => b - a,
  );
  return Math.max(...squares.map((square, k) => relativeError(square, exact[k]!)));
}

describe('oneSidedJacobi', () => {
  it('ends with orthogonal columns, turned by an orthogonal matrix: X·Xᵀ is unchanged', () => {
    const next = random(21);
    for (const n of [1, 2, 5, 12, 30]) {
      const original = Float64Array.from({ length: n * n }, () => 2 * next() - 1);
      const rotated = Float64Array.from(original);
      oneSidedJacobi(rotated, n);
      for (let p = 0; p < n; p += 1) {
        for (let q = p + 1; q < n; q += 1) {
          const [x, y] = [column(rotated, n, p), column(rotated, n, q)];
          expect(Math.abs(dot(x, y))).toBeLessThan(n * 3e-16 * Math.sqrt(dot(x, x) * dot(y, y)) + 1e-300);
        }
      }
      for (let i = 0; i < n; i += 1) {
        for (let j = 0; j < n; j += 1) {
          let before = 0;
          let after = 0;
          for (let k = 0; k < n; k += 1) {
            before += original[k * n + i]! * original[k * n + j]!;
            after += rotated[k * n + i]! * rotated[k * n + j]!;
          }
          expect(Math.abs(after - before)).toBeLessThan(1e-14 * n);
        }
      }
    }
  });

  it('has singular values to small relative error in matrices graded over 24 decades', () => {
    // B well conditioned, D from 1e-12 to 1e12 (Demmel and Veselić's class); 64-digit eigenvalues of X·Xᵀ.
    const next = random(22);
    let worst = 0;
    for (let round = 0; round < 12; round += 1) {
      const n = 2 + (round % 5);
      const scales = Array.from({ length: n }, () => decades(next, -12, 12));
      const original = Float64Array.from({ length: n * n }, (_, at) => {
        const k = Math.floor(at / n);
        return scales[k]! * ((at % n === k ? 2 : 0) + 0.8 * (next() - 0.5));
      });
      const rotated = Float64Array.from(original);
      oneSidedJacobi(rotated, n);
      worst = Math.max(worst, worstError(original, rotated, n));
    }
    expect(worst).toBeLessThan(1e-14);
  });

  it('leaves columns of zeros alone', () => {
    const columns = Float64Array.of(3, 4, 0, 0, 0, 0, 4, -3, 0);
    oneSidedJacobi(columns, 3);
    expect([...columns]).toEqual([3, 4, 0, 0, 0, 0, 4, -3, 0]);
  });

  it('finds the one direction of columns that are all the same', () => {
    const columns = Float64Array.of(1, 1, 1, 1, 1, 1, 1, 1, 1);
    oneSidedJacobi(columns, 3);
    const norms = [0, 1, 2].map((k) => Math.hypot(...column(columns, 3, k))).sort((a, b) => a - b);
    expect(norms[2]).toBeCloseTo(3, 14);
    expect(norms[1]).toBeLessThan(1e-15);
  });

  it.each([Number.NaN, Infinity])('refuses an entry of %d', (entry) => {
    expect(() => oneSidedJacobi(Float64Array.of(1, 0, 0, entry), 2)).toThrow('not finite');
  });
});
