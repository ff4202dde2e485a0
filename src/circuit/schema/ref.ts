import { type TSchema, Type } from '@sinclair/typebox';

/**
 * A `$ref` to a named component schema that keeps the static type. The schema must carry an `$id`; `options` are
 * annotations of this place (`description`).
 */
export function ref<S extends TSchema>(schema: S, options: Record<string, unknown> = {}) {
  const id = schema.$id;
  if (id === undefined) throw new Error('a referenced schema needs an $id');
  return Type.Unsafe<S['static']>(Type.Ref(id, options));
}
