import { suggestionEnd } from '../../circuit/closest.js';
import { quoted } from '../../circuit/quoted.js';
import type { Limit } from '../../limits/limit.js';
import { limits } from '../../limits/limits.js';

const byName = new Map(limits.map((limit) => [limit.meta.name, limit]));

/** The limit of that name, or undefined. */
export function limitByName(name: string): Limit | undefined {
  return byName.get(name);
}

/** A sentence for who asked for a limit that does not exist. */
export function noSuchLimit(name: string): string {
  const start = `There is no limit ${quoted(name)}`;
  return `${start}${suggestionEnd(name, byName.keys())} GET /v1/limits lists all.`;
}
