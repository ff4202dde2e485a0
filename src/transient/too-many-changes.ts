import { CircuitFault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';

/** Changes of state after which a run is refused: a circuit that switches this often is not a pre-charge circuit. */
export const MOST_CHANGES = 4000;

/** A circuit whose loads find no state that holds. */
export function tooManyChanges(compiled: CompiledCircuit): CircuitFault {
  return new CircuitFault([
    {
      pointer: compiled.circuit.pointer,
      code: 'too-many-changes',
      detail: `The circuit changes its state more than ${MOST_CHANGES.toString()} times, or at one instant without end.`,
      accepted: 'loads whose stopsBelow lies further below their startsAbove',
    },
  ]);
}
