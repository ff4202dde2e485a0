import { CircuitFault } from '../circuit/fault.js';
import { type CompiledCircuit, Mode, type Modes, type Values } from './compiled-circuit.js';
import { StateSolution } from './state-solution.js';

/** Relative to the accumulators' voltages: below this nothing stands on a capacitor in the end. */
const NOTHING = 1e-12;

/**
 * Whether an accumulator holds a voltage on a capacitor, through open contacts that leak or otherwise. Then nothing is a fall
 * without a source: what charges slower there also falls further.
 *
 * @param values positive wherever they may be: what conducts then is what may conduct at all
 */
export function feedsCapacitors(compiled: CompiledCircuit, values: Values, modes: Modes): boolean {
  const sources = compiled.elements.filter(({ kind, index }) => kind === 'accumulator' && modes[index] !== Mode.absent);
  const volts = sources.reduce((sum, { primary }) => sum + Math.abs(values[primary] as number), 0);
  if (volts === 0) return false;
  try {
    const solution = new StateSolution(compiled, values, modes, {
      capacitorVoltages: compiled.capacitors.map(() => 0),
    });
    return compiled.capacitors.some(
      (index, position) =>
        modes[index] !== Mode.absent && Math.abs(solution.capacitorVoltage(position).limit()) > NOTHING * volts,
    );
  } catch (error) {
    // An accumulator without resistance on a capacitor without any.
    if (error instanceof CircuitFault) return true;
    throw error;
  }
}
