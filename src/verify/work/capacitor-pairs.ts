import type { ResolvedCircuit } from '../../circuit/model.js';

/** Pairs of nodes with a capacitor between them: capacitors side by side on one pair are as good as one. */
export function capacitorPairs(circuit: ResolvedCircuit): number {
  const capacitors = circuit.elements.filter(({ kind }) => kind === 'capacitor');
  return new Set(capacitors.map(({ nodes }) => JSON.stringify([...nodes].sort()))).size;
}
