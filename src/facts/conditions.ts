/**
 * What a ruleset and an organiser's event prescribe, as plain numbers. The floors below the rules read only this; the
 * rulesets (src/rules/rulesets) supply it and an event's `parameters` override it, field by field.
 */

export type SeparationScenario = 'shutdown' | 'disconnect-open' | 'container-removed' | 'all-separated';

export interface Conditions {
  /** Ratio to the accumulator's open-circuit voltage that the rise must exceed before the last relay closes. */
  readonly threshold: number;
  /** V that everything outside the containers must fall to (below, where strict) within `dischargeTime`. */
  readonly dischargeVoltage: number;
  readonly dischargeVoltageStrict: boolean;
  /** s */
  readonly dischargeTime: number;
  readonly dischargeTimeStrict: boolean;
  readonly dischargeClock: 'shutdown-opens' | 'relays-open';
  /** False where the book leaves open which reading of the clock counts: a time is then kept only by both. Absent: settled. */
  readonly dischargeClockSettled?: boolean;
  /** s that the discharge resistor must stand the highest voltage; null = permanently. */
  readonly dischargeRatingTime: number | null;
  /** Starts or discharges in a row, and the s within which they fall. */
  readonly repeats: { readonly count: number; readonly within: number };
  /** s; the longest delay of a contact's return to rest where its own is not stated. */
  readonly maximumReleaseTime: number;
  /** Relative tolerance taken where a part states none. */
  readonly assumedTolerance: { readonly resistor: number; readonly capacitor: number; readonly meter: number };
  /** The states in which the discharge must work, by this ruleset. */
  readonly separationStates: readonly SeparationScenario[];
  /** Ω per volt of the highest voltage that counts as isolated. */
  readonly isolationPerVolt: number;
  /** V, the most the ruleset allows between the poles. */
  readonly maximumVoltage: number;
  /** Ω behind each measuring point for a highest voltage up to `upTo` V; absent: the book names none. */
  readonly bodyProtection?: ReadonlyArray<{ readonly upTo: number; readonly resistance: number }>;
  /** Ω, the organiser's own energy meter at the vehicle side of the isolation relays; absent: none. */
  readonly eventMeterResistance?: number;
}
