import { CircuitFault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';

/** States solved for one circuit, all its runs together, after which it is refused: some tens of seconds. A call has less time than that; this ends what has no clock. */
export const MOST_SOLVED = 3_000_000;
/** Solving a state costs about this share of following loads of constant power over one step at one place. */
const POWER_STEP = 20;

const SOLVED = Symbol('solved');

/** A circuit whose loads take more steps to follow than one request may cost. Nothing may be concluded from it. */
export class TooMuchWork extends CircuitFault {}

/** States solved for a circuit so far: a measure of work that is the same on every machine. */
export function statesSolved({ kept }: CompiledCircuit): number {
  return (kept.get(SOLVED) as number | undefined) ?? 0;
}

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
export function spend(compiled: CompiledCircuit, states = 1): void {
  const { kept, circuit } = compiled;
  const solved = statesSolved(compiled) + states;
  kept.set(SOLVED, solved);
  if (solved <= MOST_SOLVED) return;
  throw new TooMuchWork([
    {
      pointer: circuit.pointer,
      code: 'too-many-changes',
      detail: `Following the circuit’s loads takes more than ${MOST_SOLVED.toString()} steps, which is more than one request may cost.`,
      accepted:
        'fewer loads of constant power, or a resistance or a current in place of one; in a verification also fewer values with a tolerance, or only the findings',
    },
  ]);
}
