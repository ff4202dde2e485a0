import type { StateModes } from './state-modes.js';

/** One island's modes with its start. */
export interface SolvedIsland {
  /** Merged nodes that carry a state each. */
  readonly nodes: readonly number[];
  readonly modes: StateModes;
  /** C⁻¹ times the currents injected in each channel, V/s: channel c, node k at [c·n + k]. */
  readonly injected: Float64Array;
  /** V of each node at the start, relative to the reference of its group of capacitors. */
  readonly start: Float64Array;
  /** Nodes whose potential follows from the states: the reference nodes of further groups of capacitors. */
  readonly dependent: readonly DependentNode[];
  readonly error: number;
}

export interface DependentNode {
  readonly node: number;
  /** Share of each of the island's nodes. */
  readonly shares: Float64Array;
  readonly channels: Float64Array;
  /** Nodes whose states are relative to this one. */
  readonly carries: readonly number[];
}
