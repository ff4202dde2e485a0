import { type TSchema, Type } from '@sinclair/typebox';

/** An answer for one ruleset, or `{reports}` where the request named several. */
export function oneOrSeveral(name: string): TSchema {
  const one = Type.Ref(name);
  const several = Type.Object({ reports: Type.Array(one) }, { additionalProperties: true });
  return Type.Unsafe({ anyOf: [one, several] });
}
