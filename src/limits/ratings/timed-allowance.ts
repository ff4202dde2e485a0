import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';
import type { Allowance } from './allowance.js';
import { ambientOf } from './ambient-of.js';
import { permanentAllowance } from './permanent-allowance.js';
import { ONCE, temperatureRise } from './temperature-rise.js';

/**
 * W that a resistor stands for a time (null: permanently): by its continuous power, by an overload rating of at least that
 * time, or by its single thermal mass, ΔT = P·R·(1 − e^(−t/RC)) (textbook first-order heating); by both where both are stated. Repeated,
 * an overload rating counts where it holds for all of the times together; the thermal mass cools in between.
 */
export function timedAllowance(
  resistor: Resistor,
  circuit: ResolvedCircuit,
  time: number | null,
  repeats = ONCE,
): Allowance {
  const permanent = permanentAllowance(resistor, circuit);
  if (time === null) return permanent;
  const { ratings, thermal, pointer } = resistor;
  const overload = ratings?.overload;
  const factor = Math.max(1, overload?.factor ?? 1);
  const rated =
    overload !== undefined && overload.duration >= time * repeats.count
      ? { ...permanent, atLeast: permanent.atLeast * factor, atMost: permanent.atMost * factor }
      : undefined;
  const ambient = ambientOf(resistor, circuit);
  const rise = temperatureRise(thermal, time, repeats);
  if (rise === undefined || thermal?.maxTemperature === undefined || ambient === undefined) {
    if (rated !== undefined) return rated;
    const missing = [
      `${pointer}/ratings/overload`,
      ...(thermal?.capacitance === undefined ? [`${pointer}/thermal/capacitance`] : []),
      ...(thermal?.maxTemperature === undefined ? [`${pointer}/thermal/maxTemperature`] : []),
      ...(ambient === undefined ? [`${pointer}/ambientMax`] : []),
    ];
    return { atLeast: permanent.atLeast, atMost: Infinity, missing: [...permanent.missing, ...missing] };
  }
  // A stated rating holds for ever, so for the time too; heat may allow more.
  const atLeast = Math.max(0, (thermal.maxTemperature - ambient) / rise.perWatt, permanent.atLeast);
  if (rated !== undefined) {
    // An overload rating excuses no temperature that is stated and computed to be passed.
    const most = rise.exact ? atLeast : Infinity;
    return { ...rated, atLeast: Math.min(rated.atLeast, most), atMost: Math.min(rated.atMost, most) };
  }
  if (rise.exact) return { atLeast, atMost: atLeast, missing: [] };
  const field = thermal.capacitance === undefined ? 'capacitance' : 'resistance';
  return { atLeast, atMost: Infinity, missing: [`${pointer}/thermal/${field}`] };
}
