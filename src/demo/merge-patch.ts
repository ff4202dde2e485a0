import { isRecord } from '../circuit/is-record.js';

/** JSON merge patch, RFC 7396 section 2: fields replace fields, objects go deeper, null takes a field away. */
export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isRecord(patch)) return patch;
  const merged: Record<string, unknown> = isRecord(target) ? { ...target } : {};
  for (const [name, change] of Object.entries(patch)) {
    if (change === null) Reflect.deleteProperty(merged, name);
    else merged[name] = mergePatch(merged[name], change);
  }
  return merged;
}
