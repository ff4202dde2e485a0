import { isRecord } from './is-record.js';

/** Keywords whose value is data of the caller's, not a schema. */
const DATA = new Set(['const', 'enum', 'default', 'examples']);

/**
 * The same schema for Ajv, but the items of a list are only looked at where the list is not too long. Without this a
 * request of a hundred thousand faulty items would be judged item by item (with every fault reported that takes minutes)
 * before it is refused for its length. It accepts and refuses exactly the same values.
 */
export function guardLists(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(guardLists);
  if (!isRecord(schema)) return schema;
  const guarded: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(schema)) guarded[key] = DATA.has(key) ? value : guardLists(value);
  const { maxItems, items, uniqueItems, ...rest } = guarded;
  if (guarded['type'] !== 'array' || maxItems === undefined || items === undefined) return guarded;
  const then = uniqueItems === undefined ? { items } : { items, uniqueItems };
  return { ...rest, maxItems, if: { maxItems }, then };
}
