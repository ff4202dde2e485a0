import type { Directory } from './directory.js';
import type { Fault } from './fault.js';
import { textPair } from './loose-circuit.js';
import { makeFault } from './make-fault.js';
import type { ElementKind } from './model.js';
import { childPointer } from './pointer.js';
import { quoted, quotedList } from './quoted.js';

/** Kinds that a step can move. */
export const MOVABLE: readonly ElementKind[] = ['contact', 'connector', 'disconnect'];

/** The fault of a reference to a node; none where it exists, cannot be judged, or is no text (the schema says so). */
export function nodeFaults(node: unknown, pointer: string, directory: Directory): Fault[] {
  if (typeof node !== 'string' || directory.nodes.has(node) || !directory.nodesKnown) return [];
  const detail = `No element touches the node ${quoted(node)}${directory.suggestionEnd(node, directory.nodes)}`;
  return [makeFault(pointer, 'unknown-node', detail)];
}

/** The faults of a pair of nodes: each must exist, and they must differ. */
export function nodePairFaults(pair: unknown, pointer: string, directory: Directory): Fault[] {
  const nodes = textPair(pair);
  if (nodes === undefined) return [];
  const dangling = nodes.flatMap((node, index) => nodeFaults(node, childPointer(pointer, index), directory));
  if (nodes[0] !== nodes[1]) return dangling;
  return [
    ...dangling.slice(0, 1),
    makeFault(pointer, 'same-nodes', `Both nodes are ${quoted(nodes[0])}; they must differ.`),
  ];
}

/** The fault of a reference to an element of one of `kinds`. */
export function elementFaults(
  id: unknown,
  pointer: string,
  directory: Directory,
  kinds?: readonly ElementKind[],
): Fault[] {
  if (typeof id !== 'string') return [];
  const element = directory.elements.get(id);
  if (element === undefined) {
    if (!directory.idsKnown) return [];
    const candidates = [...directory.elements.values()].filter(
      ({ kind }) => kinds === undefined || kind === undefined || kinds.includes(kind),
    );
    const end = directory.suggestionEnd(
      id,
      candidates.map((candidate) => candidate.id),
    );
    return [makeFault(pointer, 'unknown-element', `No element has the id ${quoted(id)}${end}`)];
  }
  if (kinds === undefined || element.kind === undefined || kinds.includes(element.kind)) return [];
  const detail = `${quoted(id)} is of kind ${quoted(element.kind)}; ${quotedList(kinds)} is wanted here.`;
  return [makeFault(pointer, 'wrong-kind', detail)];
}
