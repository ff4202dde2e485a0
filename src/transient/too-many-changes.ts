import { CircuitFault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';

/** Changes of state after which a run is refused: a circuit that switches this often is not a pre-charge circuit. */
export const MOST_CHANGES = 4000;
/** Segments after which a run is refused: those of a constant-power load that has to be followed count too. */
export const MOST_SEGMENTS = 40_000;
/** Changes of behaviour at one instant after which a run is refused: the circuit has no state that holds. */
export const MOST_AT_ONCE = 50;

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
