import type { Overrides } from '../rules/overridable-parameters.js';

/** An organiser's conditions, read and known to be such as the rules accept. */
export interface Event {
  /** Ω, of the organiser's energy meter at the vehicle side of the isolation relays. */
  readonly meterResistance?: number;
  readonly parameters: Overrides;
}
