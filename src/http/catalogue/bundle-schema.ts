import type { TSchema } from '@sinclair/typebox';
import { referencesIn } from '../openapi/references-in.js';

/**
 * A named schema as a document of its own (JSON Schema 2020-12): every schema it refers to, directly or not, stands in
 * `$defs`, so that an editor can use it without fetching anything else.
 */
export function bundleSchema(name: string, all: readonly TSchema[]): object | undefined {
  const byName = new Map(all.map((schema) => [schema.$id, schema]));
  const root = byName.get(name);
  if (root === undefined) return undefined;
  const reached = new Set<string>();
  const visit = (schema: unknown): void => {
    for (const reference of referencesIn(schema)) {
      if (reached.has(reference)) continue;
      reached.add(reference);
      visit(byName.get(reference));
    }
  };
  visit(root);
  const definitions = [...reached].sort().map((reference) => [reference, localised(byName.get(reference))]);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    ...(localised(root) as object),
    ...(definitions.length === 0 ? {} : { $defs: Object.fromEntries(definitions) as object }),
  };
}

/** A copy whose references point into `$defs`; names (`$id`) go, since they would become addresses. */
function localised(schema: unknown): unknown {
  if (typeof schema !== 'object' || schema === null) return schema;
  if (Array.isArray(schema)) return schema.map(localised);
  const fields = Object.entries(schema).filter(([key]) => key !== '$id');
  return Object.fromEntries(
    fields.map(([key, value]) => [
      key,
      key === '$ref' && typeof value === 'string' ? `#/$defs/${value}` : localised(value),
    ]),
  );
}
