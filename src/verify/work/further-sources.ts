import type { ResolvedCircuit } from '../../circuit/model.js';
import { capacitorPairs } from './capacitor-pairs.js';

/** Pairs of nodes with a capacitor beyond the first, and accumulators beyond the first: with none, most directions are proved. */
export function furtherSources(circuit: ResolvedCircuit): number {
  const accumulators = circuit.elements.filter(({ kind }) => kind === 'accumulator').length;
  return Math.max(0, capacitorPairs(circuit) - 1) + Math.max(0, accumulators - 1);
}
