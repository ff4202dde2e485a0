import { Type } from '@sinclair/typebox';

/** One of a list of strings, as a plain `enum` (a union of literals would become a noisy `anyOf` in OpenAPI). */
export function stringEnum<const T extends readonly string[]>(values: T, options: Record<string, unknown> = {}) {
  return Type.Unsafe<T[number]>({ type: 'string', enum: [...values], ...options });
}
