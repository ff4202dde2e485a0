import type { TransientsInput } from '../transients-schema.js';
import { capacitorPairs } from './capacitor-pairs.js';
import { stateSize } from './state-size.js';

/*
 * In the unit of `expectedWork`, from times of one car (sound-rear-pack) with 0 to 79 further capacitors and up to 200 000 values;
 * pessimistic by a factor of up to four, since handing a request over costs next to nothing.
 */

/** Steps of the default order and what they close. */
const DEFAULT_STEPS = 7;
/** Of a load of constant power that is active at any time, beyond which more capacitors mean more of them. */
const POWER_STEPS = 70;
const PAIRS_PER_POWER_STEP = 3;
/** A load that sleeps and wakes may do so thousands of times: never small. */
const SWITCHING_STEPS = 700;
/** A state of n capacitors costs 1 + n³ / this: 7 ms at 12, 0.7 s at 80. Eigenvalues go by the cube (design: numerics). */
const CUBE = 20;
/** One value is a sum over the capacitors: 200 000 of them take 40 ms for one, 16 s for 80. */
const VALUE = 1 / 200;
/** A temperature is a sum over their pairs at every state before it: 26 µs for one capacitor, 120 µs for 80. */
const TEMPERATURE = 1 / 3;

/** What a run over time is expected to cost, from counts alone; see `expectedWork`. */
export function expectedRunWork({ circuit, sequence, probes, instants }: TransientsInput): number {
  const pairs = capacitorPairs(circuit);
  const steps = (sequence ?? circuit.control.sequence)?.length ?? DEFAULT_STEPS;
  const loads = circuit.elements.filter((element) => element.kind === 'load');
  const following = loads.filter(({ power }) => power !== undefined).length;
  const switching = loads.filter(({ startsAbove, power }) => startsAbove > 0 && power === undefined).length;
  const states = steps + following * POWER_STEPS * (1 + pairs / PAIRS_PER_POWER_STEP) + switching * SWITCHING_STEPS;
  const count = 'times' in instants ? instants.times.length : instants.samples;
  const perValue = probes.map(({ quantity }) => (quantity === 'temperature' ? TEMPERATURE : VALUE));
  const values = count * (1 + pairs) * perValue.reduce((sum, each) => sum + each, 0);
  return states * (1 + pairs ** 3 / CUBE) * stateSize(circuit) + values;
}
