import { MOST_CHANGES } from '../../transient/too-many-changes.js';
import type { TransientsInput } from '../transients-schema.js';
import { capacitorPairs } from './capacitor-pairs.js';
import { stateSize } from './state-size.js';

/*
 * In the unit of `expectedWork`, from times of one car (sound-rear-pack) with 0 to 79 further capacitors and up to 200 000 values,
 * nearly all within a factor of three; a run in which no load ever wakes is cheaper than it is taken for.
 */

/** Steps of the default order and what they close. */
const DEFAULT_STEPS = 7;
/** A run of n capacitors costs n³ / this, however many its steps: 0.5 s at 40, 3.3 s at 80. Eigenvalues go by the cube (design: numerics). */
const RUN = 12;
/** Each state costs n² / this more: 0.7 ms at 20, 3 ms at 40. */
const STATE = 40;
/** A load that sleeps and wakes may do so thousands of times: never small. */
const SWITCHING_STEPS = 700;
/** Steps in which a load of constant power is followed, of 14 to 25 that were counted. */
const POWER_STEPS = 25;
/** One of them costs this and n³ / that: 30 ms at 10, 60 ms at 20, 2 s at 80. */
const POWER_STEP = 30;
const POWER_CUBE = 20;
/** One value is a sum over the capacitors: 200 000 of them take 0.3 s for 80. */
const VALUE = 1 / 2000;
/**
 * A temperature is a sum over their pairs, at every state before it and at every step of a load of constant power: 200 000 take
 * 0.2 s for one capacitor, 11 s where such a load is on for ten steps.
 */
const TEMPERATURE_OF_STATE = 1 / 1000;
const TEMPERATURE_OF_POWER_STEP = 1 / 70;

/** What a run over time is expected to cost, from counts alone; see `expectedWork`. */
export function expectedRunWork({ circuit, sequence, probes, instants }: TransientsInput): number {
  const pairs = capacitorPairs(circuit);
  const steps = (sequence ?? circuit.control.sequence)?.length ?? DEFAULT_STEPS;
  const loads = circuit.elements.filter((element) => element.kind === 'load');
  const powerSteps = POWER_STEPS * loads.filter(({ power }) => power !== undefined).length;
  const switching = loads.filter(({ startsAbove }) => startsAbove > 0).length;
  const states = steps + Math.min(MOST_CHANGES, switching * SWITCHING_STEPS);
  const run =
    pairs ** 3 / RUN +
    states * (stateSize(circuit) + pairs ** 2 / STATE) +
    powerSteps * (POWER_STEP + pairs ** 3 / POWER_CUBE);
  const temperature = steps * TEMPERATURE_OF_STATE + powerSteps * TEMPERATURE_OF_POWER_STEP;
  const count = 'times' in instants ? instants.times.length : instants.samples;
  const perValue = probes.map(({ quantity }) => (quantity === 'temperature' ? temperature : VALUE));
  return run + count * (1 + pairs) * perValue.reduce((sum, each) => sum + each, 0);
}
