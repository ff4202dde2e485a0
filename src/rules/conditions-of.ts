import type { Conditions } from '../facts/conditions.js';
import type { RulesetParameters } from './parameters-schema.js';

/** The parameter rows as plain numbers, the way the lower floors read them. */
export function conditionsOf(parameters: Readonly<RulesetParameters>, eventMeterResistance?: number): Conditions {
  return {
    threshold: parameters.threshold.value,
    dischargeVoltage: parameters.dischargeVoltage.value,
    dischargeVoltageStrict: parameters.dischargeVoltageStrict.value,
    dischargeTime: parameters.dischargeTime.value,
    dischargeTimeStrict: parameters.dischargeTimeStrict.value,
    dischargeClock: parameters.dischargeClock.value,
    // A book that was read, or an organiser, has said which reading counts.
    dischargeClockSettled:
      parameters.dischargeClock.confirmed === 'read' || parameters.dischargeClock.overridden === true,
    dischargeRatingTime: parameters.dischargeRatingTime.value,
    repeats: parameters.repeats.value,
    maximumReleaseTime: parameters.maximumReleaseTime.value,
    assumedTolerance: parameters.assumedTolerance.value,
    separationStates: parameters.separationStates.value,
    isolationPerVolt: parameters.isolationPerVolt.value,
    maximumVoltage: parameters.maximumVoltage.value,
    bodyProtection: parameters.bodyProtection.value,
    ...(eventMeterResistance === undefined ? {} : { eventMeterResistance }),
  };
}
