import { CircuitFault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';

/** States solved for one circuit, all its runs together, after which it is refused: ten seconds, some tens on a slow machine. */
export const MOST_SOLVED = 1_000_000;
/** Solving a state costs about this share of following loads of constant power over one step at one place. */
const POWER_STEP = 20;

const SOLVED = Symbol('solved');

/** A circuit whose loads take more steps to follow than one request may cost. Nothing may be concluded from it. */
export class TooMuchWork extends CircuitFault {}

/**
 * Counts a step over which loads of constant power are followed at so many places: each acts on each.
 * @throws TooMuchWork
 */
export function spendPowerStep(compiled: CompiledCircuit, places: number): void {
  spend(compiled, POWER_STEP * places ** 2);
}

/**
 * Counts one more state solved for a circuit. Loads of constant power have to be followed step by step, and a request asks for
 * hundreds of runs; a count ends that at the same place every time, which a clock would not.
 * @throws TooMuchWork
 */
export function spend({ kept, circuit }: CompiledCircuit, states = 1): void {
  const solved = ((kept.get(SOLVED) as number | undefined) ?? 0) + states;
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
