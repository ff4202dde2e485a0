import { CircuitFault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';

/** States solved for one circuit, all its runs together, after which it is refused: some tens of seconds on a slow machine. */
export const MOST_SOLVED = 300_000;

const SOLVED = Symbol('solved');

/** A circuit whose loads take more steps to follow than one request may cost. Nothing may be concluded from it. */
export class TooMuchWork extends CircuitFault {}

/**
 * Counts one more state solved for a circuit. Loads of constant power have to be followed step by step, and a request asks for
 * hundreds of runs; a count ends that at the same place every time, which a clock would not.
 * @throws TooMuchWork
 */
export function spend({ kept, circuit }: CompiledCircuit): void {
  const solved = ((kept.get(SOLVED) as number | undefined) ?? 0) + 1;
  kept.set(SOLVED, solved);
  if (solved <= MOST_SOLVED) return;
  throw new TooMuchWork([
    {
      pointer: circuit.pointer,
      code: 'too-many-changes',
      detail: `Following the circuit’s loads takes more than ${MOST_SOLVED.toString()} steps, which is more than one request may cost.`,
      accepted: 'loads of constant power that the pre-charge resistor can feed, or a resistance in place of them',
    },
  ]);
}
