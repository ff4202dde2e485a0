import type { Element } from '../../circuit/model.js';

/** A node of the circuit as the topological facts walk it. */
export interface WireNode {
  /** By first use in the list of elements, so that no result depends on what the nodes are called. */
  readonly index: number;
  readonly name: string;
  readonly links: readonly WireLink[];
  /**
   * Nodes that closed contacts, fuses, plugs and shunts join share a level; levels differ by the accumulators between
   * them. −1: joined to no accumulator that way, so at no potential known beforehand.
   */
  readonly level: number;
  /** True where an accumulator ends here. */
  readonly terminal: boolean;
}

/** One element seen from one of its nodes. */
export interface WireLink {
  readonly part: WirePart;
  readonly far: WireNode;
}

/** An element with its two nodes. */
export interface WirePart {
  readonly index: number;
  readonly element: Element;
  readonly a: WireNode;
  readonly b: WireNode;
}
