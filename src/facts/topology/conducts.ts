import type { WireNode, WirePart } from './wiring.js';

/** Ω of an element in the state that is being asked about; `Infinity` where it does not conduct. */
export type Conducts = (part: WirePart) => number;

/** Whether a search may go on into a node. */
export type Enters = (node: WireNode) => boolean;
