import { type CompiledCircuit, Mode, nominalValues } from '../../transient/compiled-circuit.js';
import { StateSolution } from '../../transient/state-solution.js';
import { openCircuitVoltage } from './open-circuit.js';
import type { RiseState } from './rise-state.js';

/** Ω given to an accumulator that states none, so that capacitors charge from it in finite time; the end of it is what counts. */
const LEAST_SOURCE_RESISTANCE = 1e-3;
/** From this share on a capacitor counts as standing at the full voltage: an upper bound for what a load hides. */
const NEARLY_ALL = 0.9;

/**
 * The share of the open-circuit voltage that stands on each capacitor with the car switched on, with its sign, by id: the
 * largest of several states, so that an order that never charges the link hides nothing of what can stand on it.
 */
export function chargedShares(
  compiled: CompiledCircuit,
  states: readonly RiseState[],
  chain: readonly { readonly index: number; readonly sign: 1 | -1 }[],
): Map<string, number> {
  const shares = new Map<string, number>();
  for (const state of states) {
    for (const [id, share] of sharesIn(compiled, state, chain)) {
      if (Math.abs(share) > Math.abs(shares.get(id) ?? 0) || !shares.has(id)) shares.set(id, share);
    }
  }
  return shares;
}

function sharesIn(
  compiled: CompiledCircuit,
  state: RiseState,
  chain: readonly { readonly index: number; readonly sign: 1 | -1 }[],
): Map<string, number> {
  const values = nominalValues(compiled);
  for (const element of compiled.elements) {
    if (element.kind === 'accumulator')
      values[element.secondary] = Math.max(values[element.secondary] as number, LEAST_SOURCE_RESISTANCE);
  }
  const modes = Uint8Array.from(compiled.elements, ({ id, kind }) => {
    if (kind === 'load' || kind === 'machine') return Mode.open;
    return state.openAfter.has(id) ? Mode.open : Mode.closed;
  });
  const solution = new StateSolution(compiled, values, modes, {
    capacitorVoltages: compiled.capacitors.map(() => 0),
  });
  const total = openCircuitVoltage(chain, values);
  const shares = new Map<string, number>();
  compiled.capacitors.forEach((index, position) => {
    const share = total > 0 ? solution.capacitorVoltage(position).limit() / total : 0;
    shares.set(compiled.elements[index]?.id ?? '', Math.abs(share) > NEARLY_ALL ? Math.sign(share) : share);
  });
  return shares;
}
