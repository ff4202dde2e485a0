import type { PowerCurrent } from './power-current.js';

/** Where a switch state starts from. */
export interface StateStart {
  /** V of each capacitor just before, in the order of `compiled.capacitors`. */
  readonly capacitorVoltages: readonly number[];
  /** e^(−t/decay) of each machine at the start, by element index; absent: 1. */
  readonly machineScale?: ReadonlyMap<number, number>;
  /** What each constant-power load draws, by element index. */
  readonly powerCurrents?: ReadonlyMap<number, PowerCurrent>;
  /** V put in series with a resistance, by element index: a probe for sensitivities. */
  readonly seriesVoltage?: ReadonlyMap<number, number>;
  /** A current put into node a and taken out of node b, A: a probe for sensitivities. */
  readonly injection?: { readonly a: number; readonly b: number; readonly current: number };
  /** Number of the step, for messages. */
  readonly step?: number;
}
