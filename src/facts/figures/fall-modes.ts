import { type CompiledCircuit, Mode, type Modes } from '../../transient/compiled-circuit.js';
import type { SeparationState } from '../facts.js';

/** How every element stands in a separation state once every contact has come to rest. */
export function fallModes(compiled: CompiledCircuit, state: Pick<SeparationState, 'open' | 'gone'>): Modes {
  const open = new Set(state.open);
  const gone = new Set(state.gone);
  return Uint8Array.from(compiled.elements, ({ id, kind }) => {
    if (gone.has(id)) return Mode.absent;
    return kind === 'load' || kind === 'machine' || open.has(id) ? Mode.open : Mode.closed;
  });
}
