import type { Conditions } from '../conditions.js';
import type { Wiring } from './wiring.js';

/** Relative. A resistance of exactly the bound isolates, also where a sum or a quotient gave it. */
const ROUNDING = 1e-12;

/** Ω from which two points count as isolated: the ruleset's Ω per volt times the highest voltage between the poles. */
export function isolationResistance(wiring: Wiring, conditions: Conditions): number {
  return conditions.isolationPerVolt * wiring.highestVoltage * (1 - ROUNDING);
}
