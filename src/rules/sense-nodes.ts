import { reachable } from '../circuit/graph.js';
import type { Element, ResolvedCircuit } from '../circuit/model.js';

/** The nodes at which a sense lead sees a node: its own, and those behind the resistors of sense leads. Nothing that can open counts. */
export function senseNodes(circuit: ResolvedCircuit, node: string): ReadonlySet<string> {
  const conducts = (element: Element) =>
    element.kind === 'resistor' && (element.role === 'sense' || element.role === 'body-protection') ? 0 : undefined;
  return new Set([node, ...reachable(circuit, node, conducts).keys()]);
}
