import { lusolve, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { FactoredMatrix } from '../../src/transient/factored-matrix.js';
import { random } from './random.js';

describe('a factored matrix', () => {
  it.each([1, 2, 5, 12])('of size %i solves A·x = b and Aᵀ·x = b as mathjs does', (n) => {
    const next = random(n);
    const matrix = Array.from({ length: n }, () => Array.from({ length: n }, () => next() - 0.5));
    const b = Array.from({ length: n }, () => next());
    const factored = FactoredMatrix.of(matrix)!;
    const expected = (of: number[][]) => (lusolve(of, b) as number[][]).map(([x]) => x!);
    factored.solve(b).forEach((x, i) => expect(x).toBeCloseTo(expected(matrix)[i]!, 9));
    factored.solveTransposed(b).forEach((x, i) => expect(x).toBeCloseTo(expected(transpose(matrix))[i]!, 9));
  });

  it('leaves a residual of a few roundings of its own size where the matrix is nearly singular', () => {
    // Vandermonde on eight points of [0.85, 1]: a condition of 1e13 and more.
    const points = Array.from({ length: 8 }, (_, k) => 0.85 + (0.15 * k) / 7);
    const values = points.map((z) => Math.log(z));
    const x = FactoredMatrix.of(points.map((z) => points.map((_, k) => z ** k)))!.solve(values);
    const size = Math.max(...x.map(Math.abs));
    points.forEach((z, i) => {
      const value = x.reduceRight((sum, each) => sum * z + each, 0);
      expect(Math.abs(value - values[i]!)).toBeLessThan(64 * Number.EPSILON * size);
    });
  });

  it('does not exist for a singular matrix or one that is no number', () => {
    expect(
      FactoredMatrix.of([
        [1, 2],
        [2, 4],
      ]),
    ).toBeUndefined();
    expect(FactoredMatrix.of([[Number.NaN]])).toBeUndefined();
  });
});
