/** The names that a schema refers to, each as often as it does. */
export function referencesIn(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  if (Array.isArray(schema)) return schema.flatMap(referencesIn);
  return Object.entries(schema).flatMap(([key, value]) =>
    key === '$ref' && typeof value === 'string' ? [value] : referencesIn(value),
  );
}
