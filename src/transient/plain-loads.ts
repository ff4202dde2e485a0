import { type CompiledCircuit, Mode, type Modes } from './compiled-circuit.js';

/** Loads that act as plain resistances whatever the voltage; machines that do not feed. */
export function plainLoads(compiled: CompiledCircuit, modes: Modes): boolean {
  return compiled.elements.every((element) => {
    if (element.kind === 'machine') return modes[element.index] !== Mode.closed;
    if (element.source.kind !== 'load' || modes[element.index] === Mode.open) return true;
    return element.load === 'resistance' && element.source.startsAbove <= 0;
  });
}
