import type { Box } from '../../transient/box.js';
import type { CompiledCircuit } from '../../transient/compiled-circuit.js';

/** The box with one element's defining value fixed, and with the one end that its figures are wanted for. */
export function fixed(
  compiled: CompiledCircuit,
  box: Box,
  element: string,
  value: number,
  only: 'min' | 'max' | undefined,
): Box {
  const index = compiled.byId.get(element)?.primary ?? -1;
  const nominal = box.nominal.slice();
  if (index >= 0) nominal[index] = value;
  return { nominal, uncertain: box.uncertain.filter((uncertain) => uncertain.index !== index), only };
}
