import type { TSchema } from '@sinclair/typebox';

/** One schema under several media types, as `describe` takes an answer's content. */
export function contentOf(types: readonly string[], schema: TSchema): Record<string, TSchema> {
  return Object.fromEntries(types.map((type) => [type, schema]));
}
