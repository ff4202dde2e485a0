import { FactoredMatrix } from './factored-matrix.js';
import { FADINGS } from './power-current.js';

/** Where a polynomial in z = e^(−rate·t), z from 1 (the start) down to `end`, is pinned, and where it is checked. */
export interface Collocation {
  /** z at the end of the step; 0: it never ends. */
  readonly end: number;
  /** z, from 1 down to `end`, both included. */
  readonly nodes: readonly number[];
  /** z between the nodes. */
  readonly checks: readonly number[];
  /**
   * Powers of the nodes. The powers of z are nearly alike, so its inverse would lose seven digits; solved by its factors the
   * polynomial still goes through the nodes to the last digit.
   */
  readonly powers: FactoredMatrix;
}

/**
 * Chebyshev's points of the second kind: the polynomial through a smooth function's values there is within a small factor of
 * the best one (Berrut and Trefethen, "Barycentric Lagrange Interpolation", SIAM Review 46, 2004: from memory).
 */
export function collocationOn(end: number): Collocation {
  const at = (k: number): number => (1 + end) / 2 + ((1 - end) / 2) * Math.cos((Math.PI * k) / FADINGS);
  const nodes = Array.from({ length: FADINGS + 1 }, (_, k) => at(k));
  nodes[0] = 1;
  nodes[FADINGS] = end;
  const checks = Array.from({ length: FADINGS }, (_, k) => at(k + 0.5));
  const powers = FactoredMatrix.of(nodes.map((z) => Array.from(nodes, (_, k) => z ** k)));
  if (powers === undefined) throw new Error('the nodes of a polynomial must differ');
  return { end, nodes, checks, powers };
}
