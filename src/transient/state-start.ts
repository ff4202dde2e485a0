/** Where a switch state starts from. */
export interface StateStart {
  /** V of each capacitor just before, in the order of `compiled.capacitors`. */
  readonly capacitorVoltages: readonly number[];
  /** e^(−t/decay) of each machine at the start, by element index; absent: 1. */
  readonly machineScale?: ReadonlyMap<number, number>;
  /** What each constant-power load draws, by element index: constant + fading·e^(−rate·t), A and 1/s (a rate below 0 grows). */
  readonly powerCurrents?: ReadonlyMap<number, PowerCurrent>;
  /** V put in series with a resistance, by element index: a probe for sensitivities. */
  readonly seriesVoltage?: ReadonlyMap<number, number>;
  /** A current put into node a and taken out of node b, A: a probe for sensitivities. */
  readonly injection?: { readonly a: number; readonly b: number; readonly current: number };
  /** Number of the step, for messages. */
  readonly step?: number;
}

/** The course of a constant-power load's current over a short while. */
export interface PowerCurrent {
  readonly constant: number;
  readonly fading: number;
  readonly rate: number;
}
