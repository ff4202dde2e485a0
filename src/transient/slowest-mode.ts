import type { Direction, Directions } from './bounds.js';
import { type Box, highestOf } from './box.js';
import type { CompiledCircuit, Modes } from './compiled-circuit.js';
import type { Pair } from './sign-question.js';
import { planOf } from './plan-of.js';

/**
 * How the slowest time constant of a state depends on each parameter, where a pair shows it: it grows with every resistance and
 * capacitance of its island. undefined: that is not told.
 *
 * The slowest rate is the least of xᵀGx/xᵀCx over all x (Rayleigh), which grows with no resistance and with no capacitance. With all
 * capacitors on one common node its mode has one sign at every other node (Perron and Frobenius), so that every pair with
 * the common node shows it, and a rise of all voltages from 0 holds it.
 */
export function slowestMode(compiled: CompiledCircuit, box: Box, modes: Modes, pair: Pair): Directions | undefined {
  const { holding, merged, islandOf, branches, capacitors } = planOf(compiled, modes, highestOf(box));
  const [island] = holding;
  if (holding.length !== 1 || island?.common === undefined) return undefined;
  const ends = [merged[pair.a], merged[pair.b]] as const;
  if (ends[0] === ends[1] || !ends.includes(island.common)) return undefined;
  const home = islandOf[island.reference];
  if (ends.some((end) => islandOf[end ?? -1] !== home)) return undefined;
  const grows = new Set([
    ...branches.filter(({ ma, mb }) => ma !== mb && islandOf[ma] === home).map(({ resistance }) => resistance),
    ...capacitors.filter(({ ma, mb }) => ma !== mb).map(({ element }) => element.primary),
  ]);
  return (parameter): Direction => (grows.has(parameter) ? 1 : 0);
}
