/** An organiser's conditions, read. */
export interface EventConditions {
  /** Ω, of the organiser's energy meter at the vehicle side of the isolation relays; absent: none. */
  readonly meterResistance?: number;
  /** Overrides of the ruleset's parameters by name, as given: the rules know what each may hold. */
  readonly parameters: Readonly<Record<string, unknown>>;
}
