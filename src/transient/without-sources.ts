import type { CompiledCircuit, Values } from './compiled-circuit.js';

/** The values with every accumulator at 0 V: what then flows comes from the capacitors, or from a probe. */
export function withoutSources({ elements }: CompiledCircuit, values: Values): Values {
  const still = values.slice();
  for (const { kind, primary } of elements) if (kind === 'accumulator') still[primary] = 0;
  return still;
}
