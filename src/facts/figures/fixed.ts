import type { Box } from '../../transient/box.js';
import type { CompiledCircuit } from '../../transient/compiled-circuit.js';
import type { PartRange } from '../facts.js';

/** The box with one element's defining value fixed, or in a range of its own, and with the one end that its figures are wanted for. */
export function fixed(
  compiled: CompiledCircuit,
  box: Box,
  element: string,
  value: number | PartRange,
  only: 'min' | 'max' | undefined,
): Box {
  const index = compiled.byId.get(element)?.primary ?? -1;
  const nominal = box.nominal.slice();
  if (index >= 0) nominal[index] = typeof value === 'number' ? value : value.nominal;
  const uncertain = box.uncertain.filter((each) => each.index !== index);
  if (index >= 0 && typeof value === 'object') {
    uncertain.push({ index, low: value.low, high: value.high, assumed: false });
    uncertain.sort((a, b) => a.index - b.index);
  }
  return { nominal, uncertain, only };
}
