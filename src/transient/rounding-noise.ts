import type { CompiledCircuit, Values } from './compiled-circuit.js';

/** Relative to the highest voltage: what is left of the difference of two potentials that are equal, many capacitors included. */
const ROUNDING = 1e-14;

/**
 * V by which a voltage may be off for being a difference of potentials: a share of what no two nodes are further apart than, about, all
 * sources and the capacitor that stands highest.
 */
export function roundingNoise({ elements }: CompiledCircuit, values: Values, startVoltages: readonly number[]): number {
  let highest = 0;
  for (const volts of startVoltages) highest = Math.max(highest, Math.abs(volts));
  for (const { kind, primary } of elements)
    if (kind === 'accumulator' || kind === 'machine') highest += Math.abs(values[primary] as number);
  return ROUNDING * highest;
}
