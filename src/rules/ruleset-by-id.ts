import type { Ruleset } from './ruleset.js';
import { rulesets } from './rulesets.js';

/** The ruleset of that id, or undefined. */
export function rulesetById(id: string): Ruleset | undefined {
  return rulesets.find((ruleset) => ruleset.id === id);
}
