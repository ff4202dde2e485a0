import { isRecord } from '../circuit/is-record.js';
import { mergePatch } from './merge-patch.js';

/**
 * A change to a circuit: a JSON merge patch, in which `elements` has the parts by id. Null takes a part out; a part with a
 * `kind` that the circuit has not is put in.
 */
export type CircuitChange = Readonly<Record<string, unknown>> & {
  readonly elements?: Readonly<Record<string, unknown>>;
};

/** @throws Error where the change is of a part that the circuit has not */
export function reviseCircuit(circuit: unknown, { elements = {}, ...fields }: CircuitChange): unknown {
  const revised = mergePatch(circuit, fields);
  const before = isRecord(revised) && Array.isArray(revised['elements']) ? (revised['elements'] as unknown[]) : [];
  const idOf = (element: unknown): string => (isRecord(element) ? String(element['id']) : '');
  const known = new Set(before.map(idOf));
  const others = Object.entries(elements).filter(([id]) => !known.has(id));
  const added = others.flatMap(([id, part]) => (isRecord(part) && 'kind' in part ? [{ id, ...part }] : []));
  if (added.length < others.length) throw new Error(`no such part to change: ${others.map(([id]) => id).join(', ')}`);
  const after = before.flatMap((element) => {
    const change = elements[idOf(element)];
    if (change === undefined) return [element];
    return change === null ? [] : [mergePatch(element, change)];
  });
  return mergePatch(revised, { elements: [...after, ...added] });
}
