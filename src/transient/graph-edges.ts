import { type CompiledCircuit, type CompiledElement, Mode, type Modes } from './compiled-circuit.js';

/** The elements that may carry current in a switch state, open contacts that leak among them. */
export function graphEdges(compiled: CompiledCircuit, modes: Modes): CompiledElement[] {
  return compiled.elements.filter((element) => {
    const mode = modes[element.index];
    if (mode === Mode.absent) return false;
    return mode === Mode.closed || (element.kind === 'contact' && element.secondary >= 0);
  });
}
