import type { Conditions } from '../facts/conditions.js';

/**
 * Conditions for questions that name no ruleset: what a circuit does over time. Only the level at which the default order of
 * closing continues and the resistance that counts as isolated are read from it; the level is reported as an assumption.
 */
export const openConditions: Conditions = {
  threshold: 0.95,
  dischargeVoltage: 60,
  dischargeVoltageStrict: false,
  dischargeTime: 5,
  dischargeTimeStrict: false,
  dischargeClock: 'shutdown-opens',
  dischargeRatingTime: null,
  repeats: { count: 1, within: 15 },
  maximumReleaseTime: 0.25,
  assumedTolerance: { resistor: 0, capacitor: 0, meter: 0 },
  separationStates: [],
  isolationPerVolt: 500,
  maximumVoltage: Number.MAX_VALUE,
};
