import type { CompiledElement } from './compiled-circuit.js';

/** A resistance with a voltage in series. Nodes are the circuit's own, then the insides of capacitors with ESR. */
export interface PlannedBranch {
  readonly element: CompiledElement;
  readonly a: number;
  readonly b: number;
  /** Merged nodes. */
  readonly ma: number;
  readonly mb: number;
  /** Index of the parameter that is its resistance. */
  readonly resistance: number;
  /** Channel of a machine's fading voltage; 0: none. */
  readonly channel: number;
}

export interface PlannedCapacitor {
  readonly element: CompiledElement;
  /** Its place among `compiled.capacitors`. */
  readonly position: number;
  readonly a: number;
  readonly b: number;
  readonly ma: number;
  readonly mb: number;
}

/** A load in its constant range. */
export interface PlannedCurrent {
  readonly element: CompiledElement;
  /** First of the channels of a constant-power load's fading terms; 0: none. */
  readonly channel: number;
  readonly ma: number;
  readonly mb: number;
}

/** What conducts to one another, directly or through capacitors. */
export interface PlannedIsland {
  readonly capacitors: readonly PlannedCapacitor[];
  /** Potentials of the island are relative to this merged node. */
  readonly reference: number;
  /** The node that all its capacitors share; undefined: there is none. */
  readonly common: number | undefined;
  /** Where they share one: the nodes at their other ends, in order of number. */
  readonly others: readonly number[];
}
