import type { Circuit } from './wire.js';

/** Where a field stands: keys of objects and places in arrays. */
export type Path = ReadonlyArray<string | number>;

/** What every element must state, whatever its kind; the rest that is required shows when the circuit is read. */
const ALWAYS = new Set(['id', 'kind', 'nodes', 'zone', 'elements']);

/** Every field of a circuit at any depth, by its path; items of arrays are no fields. */
export function fieldsOf(value: unknown, at: Path = []): readonly Path[] {
  if (Array.isArray(value)) return value.flatMap((item: unknown, index) => fieldsOf(item, [...at, index]));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, field]) => [
    ...(ALWAYS.has(key) ? [] : [[...at, key]]),
    ...fieldsOf(field, [...at, key]),
  ]);
}

/** The same circuit without one field. */
export function withoutField(circuit: Circuit, path: Path): Circuit {
  return without(circuit, path) as Circuit;
}

function without(value: unknown, [key, ...rest]: Path): unknown {
  if (Array.isArray(value)) return value.map((item: unknown, index) => (index === key ? without(item, rest) : item));
  const entries = Object.entries(value as object);
  return Object.fromEntries(
    rest.length === 0
      ? entries.filter(([name]) => name !== key)
      : entries.map(([name, field]) => [name, name === key ? without(field, rest) : field]),
  );
}
