import type { Conducts } from '../../circuit/conducts-at.js';
import { effectiveResistance } from '../../circuit/effective-resistance.js';
import type { ResolvedCircuit } from '../../circuit/model.js';

/**
 * The share of a voltage held between p and n that stands between a and b, without sign. From what an ohmmeter would show:
 * (Ran − Rap − Rbn + Rbp)/(2·Rpn), by superposition and reciprocity (textbook network theory, from memory).
 * 0 where a or b is on no way from p to n, or p and n are one.
 */
export function shareOfVoltage(
  circuit: ResolvedCircuit,
  conducts: Conducts,
  [p, n]: readonly [string, string],
  [a, b]: readonly [string, string],
): number {
  const between = (one: string, other: string) =>
    one === other ? 0 : effectiveResistance(circuit, one, other, conducts);
  const share = Math.abs(between(a, n) - between(a, p) - between(b, n) + between(b, p)) / (2 * between(p, n));
  // Parts on no way from one node to the other have infinite terms, and take nothing.
  return Number.isFinite(share) ? share : 0;
}
