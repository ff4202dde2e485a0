import type { Conducts } from './conducts.js';
import { isConductor } from './is-conductor.js';
import { isEnergised } from './is-energised.js';
import { type Choose, resistanceOf } from './resistance-of.js';
import type { WirePart, Wiring } from './wiring.js';

/** Which contacts are open or closed in the rise, whatever their rest. All others are as the shutdown circuit moves them. */
export interface RiseState {
  readonly closed: ReadonlySet<WirePart>;
  readonly open: ReadonlySet<WirePart>;
}

/**
 * Ω of each element in the rise. An open contact conducts through its `openResistance` where that is stated. Meters
 * conduct only where `meters` says so.
 */
export function riseConducts(wiring: Wiring, state: RiseState, choose: Choose, meters: boolean): Conducts {
  return (part) => {
    const { element } = part;
    if (element.kind === 'contact') {
      const shut =
        state.closed.has(part) || (!state.open.has(part) && (element.rest === 'closed') !== isEnergised(element));
      if (!shut) return element.openResistance ? choose(element.openResistance) : Infinity;
    }
    if (!meters && (element.kind === 'load' || (element.kind === 'meter' && !isConductor(element)))) return Infinity;
    return resistanceOf(element, choose, wiring.highestVoltage);
  };
}
