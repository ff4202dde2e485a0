import type { CompiledCircuit } from '../../transient/compiled-circuit.js';

/** Whether a single accumulator feeds everything, so that its voltage is a scale. */
export function hasOneAccumulator({ elements }: CompiledCircuit): boolean {
  return elements.filter(({ kind }) => kind === 'accumulator').length === 1;
}
