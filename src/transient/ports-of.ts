import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { planOf } from './plan-of.js';
import type { Port } from './port-responses.js';

const NONE: readonly Port[] = [];

/** The pairs of nodes across which loads draw constant power now, loads side by side taken together. */
export function portsOf(compiled: CompiledCircuit, values: Values, modes: Modes): readonly Port[] {
  const draws = ({ index, load }: CompiledElement): boolean => load === 'power' && modes[index] === Mode.constant;
  if (!compiled.elements.some(draws)) return NONE;
  const active = compiled.elements.filter(draws);
  const { merged } = planOf(compiled, modes, values);
  const groups = new Map<string, typeof active>();
  for (const element of active) {
    const key = `${String(merged[element.a])} ${String(merged[element.b])}`;
    groups.set(key, [...(groups.get(key) ?? []), element]);
  }
  return [...groups.values()].map((elements) => {
    const powerOf = (index: number): number => values[index] as number;
    const power = elements.reduce((sum, { primary }) => sum + powerOf(primary), 0);
    const { a, b } = elements[0] as (typeof elements)[number];
    return {
      a,
      b,
      power,
      loads: elements.map(({ index, primary }) => ({ element: index, share: powerOf(primary) / power })),
    };
  });
}
