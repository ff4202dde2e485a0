import type { Facts } from '../../facts/facts.js';
import { notComputable } from '../../facts/figures/not-computable.js';
import type { RiseTime } from './rise-time.js';

/** False where no car of the description ever closes its last relay; true also where that cannot be told. */
export function canStart(facts: Facts, riseTime: () => RiseTime): boolean {
  const { circuit, topology, rise } = facts;
  if (topology.bridgedRelays.length === 0 || rise.steadyRatio.nominal === null) return true;
  try {
    return riseTime().min !== null;
  } catch (error) {
    if (notComputable(circuit, error) === undefined) throw error;
    return true;
  }
}
