import type { Resistor } from '../circuit/model.js';

/**
 * K per W after `time` s of constant power in a single thermal mass: R·(1 − e^(−t/RC)), or t/C where no heat is let go of
 * (the most it can be). Textbook first-order heating.
 * @returns undefined where neither the thermal resistance nor the thermal mass is stated.
 */
export function temperatureRise(
  thermal: Resistor['thermal'],
  time: number,
): { readonly perWatt: number; readonly exact: boolean } | undefined {
  const { resistance, capacitance } = thermal ?? {};
  if (resistance !== undefined && capacitance !== undefined) {
    return { perWatt: -resistance * Math.expm1(-time / (resistance * capacitance)), exact: true };
  }
  if (capacitance !== undefined) return { perWatt: time / capacitance, exact: false };
  // The steady rise is the most that any time can bring.
  return resistance === undefined ? undefined : { perWatt: resistance, exact: time === Infinity };
}
