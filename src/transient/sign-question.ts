import type { Box } from './box.js';
import type { CompiledCircuit, Modes } from './compiled-circuit.js';

/** A rise from empty capacitors, or a fall of charged ones with every source gone. */
export type Course = 'rise' | 'fall';

/** A node pair whose voltage is looked at; node numbers. */
export interface Pair {
  readonly a: number;
  readonly b: number;
}

/** What is asked of the signs of one switch state. */
export interface SignQuestion {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  readonly modes: Modes;
  readonly course: Course;
  /** Node pairs whose voltages are asked for. */
  readonly pairs: readonly Pair[];
  /** `any`: loads that are no plain resistances are taken as such, so that the signs are likely but not proved. */
  readonly loads?: 'plain' | 'any';
  /** `end`: only what is steady is asked for. No capacitor carries anything then, so the graph may do without them. */
  readonly instant?: 'end';
  /** Parameters of resistances that are none whatever the values: what they join is one node. */
  readonly shorts?: ReadonlySet<number>;
}
