import type { ConductingPath } from '../facts.js';
import type { Conducts, Enters } from './conducts.js';
import { type Distance, further, isNearer, NOWHERE, takeNearest } from './distance.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/** What a search from one node has reached. */
export interface Reached {
  readonly start: WireNode;
  /** In the order they were reached: by resistance, then by number of elements. */
  readonly nodes: readonly WireNode[];
  /** Ω of the least path to the node; `Infinity` where it was not reached. */
  resistanceTo(node: WireNode): number;
  /** Elements from the start to the node, in order; empty for the start and for nodes that were not reached. */
  partsTo(node: WireNode): WirePart[];
  /** The same as a path for the answer. */
  pathTo(node: WireNode): ConductingPath;
}

/** A node with the way by which it is reached. */
interface Arrival {
  readonly node: WireNode;
  readonly distance: Distance;
  readonly previous: Arrival | undefined;
  readonly part: WirePart | undefined;
}

/**
 * Paths of least resistance from a node (nearest node first; ties go to fewer elements, then to earlier ids). Nodes that `enters`
 * refuses are not reached; nodes that `leaves` refuses are reached and not gone beyond. The start is always left.
 */
export function search(wiring: Wiring, start: WireNode, conducts: Conducts, enters?: Enters, leaves?: Enters): Reached {
  const arrivals = new Array<Arrival | undefined>(wiring.nodes.length).fill(undefined);
  const nodes: WireNode[] = [];
  const first: Arrival = { node: start, distance: NOWHERE, previous: undefined, part: undefined };
  const frontier: Arrival[] = [first];
  arrivals[start.index] = first;
  for (;;) {
    const arrival = takeNearest(frontier);
    if (!arrival) break;
    const { node, distance } = arrival;
    // A nearer way to it was found meanwhile.
    if (arrivals[node.index] !== arrival) continue;
    nodes.push(node);
    if (node !== start && leaves && !leaves(node)) continue;
    for (const { part, far } of node.links) {
      const ohms = conducts(part);
      if (ohms === Infinity || part === arrival.part) continue;
      const known = arrivals[far.index];
      const next = further(distance, part, ohms);
      if ((known && !isNearer(next, known.distance)) || (enters && !enters(far))) continue;
      const better: Arrival = { node: far, distance: next, previous: arrival, part };
      arrivals[far.index] = better;
      frontier.push(better);
    }
  }

  const wayTo = (node: WireNode): Arrival[] => {
    const way: Arrival[] = [];
    for (let at = arrivals[node.index]; at; at = at.previous) way.push(at);
    return way.reverse();
  };
  const partsTo = (node: WireNode): WirePart[] => wayTo(node).flatMap(({ part }) => part ?? []);
  const resistanceTo = (node: WireNode): number => arrivals[node.index]?.distance.resistance ?? Infinity;
  return {
    start,
    nodes,
    resistanceTo,
    partsTo,
    pathTo: (node) => ({
      elements: partsTo(node).map(({ element }) => element.id),
      nodes: wayTo(node).map((at) => at.node.name),
      resistance: resistanceTo(node),
    }),
  };
}
