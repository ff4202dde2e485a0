import { createHash } from 'node:crypto';
import { canonicalJson } from './canonical-json.js';

/** `sha-256:` and the hexadecimal SHA-256 of the value's canonical form (RFC 8785). */
export function digest(value: unknown): string {
  return `sha-256:${createHash('sha256').update(canonicalJson(value), 'utf8').digest('hex')}`;
}
