import { CircuitFault } from '../../circuit/fault.js';
import type { ResolvedCircuit } from '../../circuit/model.js';

/**
 * Where a computation was refused for a loop without resistance, the fields that would give it one, by pointer; undefined: the
 * error is of another kind.
 */
export function missingInLoop(circuit: ResolvedCircuit, error: unknown): string[] | undefined {
  if (!(error instanceof CircuitFault) || !error.faults.every(({ code }) => code === 'ideal-loop')) return undefined;
  return error.faults.map(({ pointer }) => {
    const element = circuit.elements.find((each) => each.pointer === pointer);
    return `${pointer}/${element?.kind === 'capacitor' ? 'esr' : 'resistance'}`;
  });
}
