import { type Element, type ElementKind, elementById, type ResolvedCircuit } from '../circuit/model.js';

/** The elements of those ids that are of one kind, in the order of the ids; ids of other kinds are left out. */
export function elementsOf<K extends ElementKind>(
  circuit: ResolvedCircuit,
  ids: Iterable<string>,
  kind: K,
): ReadonlyArray<Extract<Element, { kind: K }>> {
  const isOfKind = (element: Element | undefined): element is Extract<Element, { kind: K }> => element?.kind === kind;
  return Array.from(ids, (id) => elementById(circuit, id)).filter(isOfKind);
}
