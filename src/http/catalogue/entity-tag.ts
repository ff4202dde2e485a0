import { createHash } from 'node:crypto';
import { canonicalJson } from '../../verify/canonical-json.js';

/** A strong entity tag (RFC 9110 section 8.8.3) from the canonical form of what an answer is made from. */
export function entityTag(source: object): string {
  return `"${createHash('sha256').update(canonicalJson(source)).digest('base64url').slice(0, 32)}"`;
}

/** Whether an `If-None-Match` names the tag. RFC 9110 section 13.1.2: weak comparison with each tag of the list. */
export function tagMatches(header: string | undefined, tag: string): boolean {
  if (header === undefined) return false;
  return header.trim() === '*' || header.split(',').some((one) => one.trim().replace(/^W\//, '') === tag);
}
