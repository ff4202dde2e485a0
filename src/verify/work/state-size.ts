import type { ResolvedCircuit } from '../../circuit/model.js';

/** Elements up to which a state costs what it costs in an ordinary car. */
const ORDINARY = 40;

/** What one state of a circuit costs, in those of an ordinary car: a row of 178 resistors takes five to seven times as long. */
export function stateSize({ elements }: ResolvedCircuit): number {
  return Math.max(1, elements.length / ORDINARY);
}
