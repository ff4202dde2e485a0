import { reachable } from '../circuit/graph.js';
import type { Element, ResolvedCircuit } from '../circuit/model.js';
import { isConductor } from '../facts/topology/is-conductor.js';

/** The nodes joined to one by conductors alone, those named in `without` left out. */
export function joinedNodes(circuit: ResolvedCircuit, from: string, without: ReadonlySet<string>): ReadonlySet<string> {
  const conducts = (element: Element) => (isConductor(element) && !without.has(element.id) ? 0 : undefined);
  return new Set(reachable(circuit, from, conducts).keys());
}
