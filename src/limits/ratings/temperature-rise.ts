import type { Resistor } from '../../circuit/model.js';
import { held } from '../../facts/figures/thermal-peak.js';
import { ThermalHistory } from '../../transient/thermal-history.js';

/** The same again and again, `interval` s from start to start, or back to back where that is shorter than what is repeated. */
export interface Repeats {
  readonly count: number;
  readonly interval: number;
}

export const ONCE: Repeats = { count: 1, interval: 0 };

/**
 * K per W after `time` s of constant power in a single thermal mass: R·(1 − e^(−t/RC)), or t/C where no heat is let go of
 * (the most it can be). Textbook first-order heating; repeats add up by the geometric sum.
 * @returns undefined where neither the thermal resistance nor the thermal mass is stated.
 */
export function temperatureRise(
  thermal: Resistor['thermal'],
  time: number,
  { count, interval } = ONCE,
): { readonly perWatt: number; readonly exact: boolean } | undefined {
  const { resistance, capacitance } = thermal ?? {};
  if (resistance !== undefined && capacitance !== undefined) {
    const history = new ThermalHistory({ resistance, capacitance, ohms: 1 }, [held(time, count, interval)]);
    return { perWatt: history.peak(), exact: true };
  }
  if (capacitance !== undefined) return { perWatt: (time * count) / capacitance, exact: false };
  // The steady rise is the most that any time can bring.
  return resistance === undefined ? undefined : { perWatt: resistance, exact: time === Infinity };
}
