import type { ResolvedCircuit } from '../../circuit/model.js';
import { furtherSources } from './further-sources.js';
import { loadCounts } from './load-counts.js';
import { stateSize } from './state-size.js';

/*
 * From times of verifications of one car (sound-rear-pack), for each state that was counted: 1.5 to 3 times those of the car as it
 * is for 4 and 11 further capacitors, 6 for 11 with 140 meters; 4 for 20 loads that start and stop beside one further
 * capacitor, 6 beside four, 7 for 5 beside eleven. Without a further one such loads cost nothing.
 */

/** For each further capacitor or accumulator. */
const FURTHER = 1 / 8;
/** For each load whose current bends, beside further ones. */
const BENT = 1 / 8;

/** What one state of a verification costs, in those of an ordinary car. */
export function stateCost(circuit: ResolvedCircuit): number {
  const further = FURTHER * furtherSources(circuit);
  const bent = further === 0 ? 0 : BENT * loadCounts(circuit).bent * (1 + further);
  return stateSize(circuit) + further + bent;
}
