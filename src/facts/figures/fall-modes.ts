import { type CompiledCircuit, Mode, type Modes } from '../../transient/compiled-circuit.js';
import type { SeparationState } from '../facts.js';

/** How every element stands with some open and some gone, all others closed and no load or machine at work. */
export function fallModes(compiled: CompiledCircuit, state: Pick<SeparationState, 'open' | 'gone'>): Modes {
  const open = new Set(state.open);
  const gone = new Set(state.gone);
  return Uint8Array.from(compiled.elements, ({ id, kind }) => {
    if (gone.has(id)) return Mode.absent;
    return kind === 'load' || kind === 'machine' || open.has(id) ? Mode.open : Mode.closed;
  });
}
