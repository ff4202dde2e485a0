import type { Contact, Phase, Step } from '../circuit/model.js';
import type { CompiledCircuit, Modes, Values } from './compiled-circuit.js';
import type { StateSolution } from './state-solution.js';

export interface Segment {
  /** s */
  readonly start: number;
  /** s; Infinity for the last one of an open-ended run. */
  readonly end: number;
  readonly solution: StateSolution;
}

export interface TimelineEvent {
  readonly time: number;
  /** Index of the step that caused it; null: a load, a machine or the start. */
  readonly step: number | null;
  readonly opened: readonly string[];
  readonly closed: readonly string[];
  /** Loads and machines that changed behaviour, by id. */
  readonly changed: readonly string[];
  /** J lost at the instant to capacitors sharing charge. */
  readonly energyLost: number;
  /** Set where a `when` never fired: this step and all after it were skipped. */
  readonly skipped?: boolean;
  /** Index of the segment that begins here. */
  readonly segment: number;
}

export interface Timeline {
  readonly segments: readonly Segment[];
  readonly events: readonly TimelineEvent[];
  /** Index of the segment from which on an open-ended run repeats itself for ever; absent: it settles. */
  readonly repeatsFrom?: number;
}

export interface TimelineInput {
  readonly compiled: CompiledCircuit;
  readonly values: Values;
  readonly steps: readonly Step[];
  /** s; Infinity is allowed. */
  readonly until: number;
  /** How every element stands at t = 0; default: at rest. What is absent then is so for the whole run. */
  readonly starts?: Modes;
  /** V of capacitors at t = 0 where not their `initialVoltage`, by id. */
  readonly startVoltages?: ReadonlyMap<string, number>;
  /** V of the accumulator, for `when`. */
  readonly openCircuitVoltage: number;
  /** s from release to movement, by contact id; overrides the contact's own. */
  readonly releaseTime?: (contact: Contact) => number;
  /** Which loads draw; default: by phase. */
  readonly phase?: Phase;
  /** True: no load draws at all (meters do). */
  readonly withoutLoads?: boolean;
  /** True: the machines turn; default: from the first release on. */
  readonly machinesTurn?: boolean;
}
