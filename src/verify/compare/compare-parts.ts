import type { ResolvedCircuit } from '../../circuit/model.js';
import { plainCircuit } from '../../circuit/plain-circuit.js';
import type { FieldMove, PartMove } from './compare-schemas.js';
import { compareValues } from './compare-values.js';

/** What two revisions have differently: parts by id, and the circuit's own fields. */
export function compareParts(
  before: ResolvedCircuit,
  after: ResolvedCircuit,
): { readonly parts: PartMove[]; readonly circuit: FieldMove[] } {
  const { elements: old, ...oldRest } = plainCircuit(before);
  const { elements: now, ...newRest } = plainCircuit(after);
  const earlier = new Map(old.map((element) => [element.id, element]));
  const later = new Map(now.map((element) => [element.id, element]));
  const ids = [...new Set([...earlier.keys(), ...later.keys()])].sort();
  const parts = ids.flatMap((id): PartMove[] => {
    const [was, is] = [earlier.get(id), later.get(id)];
    if (was === undefined) return is === undefined ? [] : [{ id, change: 'added', kind: is.kind, fields: [] }];
    if (is === undefined) return [{ id, change: 'removed', kind: was.kind, fields: [] }];
    const fields = compareValues(was, is);
    return fields.length === 0 ? [] : [{ id, change: 'changed', kind: is.kind, fields }];
  });
  return { parts, circuit: compareValues(oldRest, newRest) };
}
