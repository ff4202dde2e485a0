import type { CompiledCircuit } from '../../transient/compiled-circuit.js';

/** Resistances not stated, by pointer, of what can give or take current without limit: accumulators and capacitors. */
export function missingResistances({ elements, parameters }: CompiledCircuit): string[] {
  return elements
    .filter(({ kind }) => kind === 'accumulator' || kind === 'capacitor')
    .flatMap(({ secondary }) => {
      const parameter = parameters[secondary];
      return parameter === undefined || parameter.stated ? [] : [parameter.pointer];
    })
    .sort();
}
