import { overridableParameters } from '../../rules/overridable-parameters.js';
import type { Ruleset } from '../../rules/ruleset.js';

/** A ruleset in the list of all. */
export function rulesetSummary({ id, revision, source, note }: Ruleset) {
  return { id, revision, source, ...(note === undefined ? {} : { note }) };
}

/** A ruleset in full: its parameters as rows, its rules as they stand. What is derived from them is left out. */
export function rulesetAnswer(ruleset: Ruleset) {
  const overridable = new Set<string>(overridableParameters.map(({ name }) => name));
  const parameters = Object.entries(ruleset.parameters).map(([name, row]) => ({
    name,
    ...row,
    overridable: overridable.has(name),
  }));
  return { ...rulesetSummary(ruleset), parameters, rules: ruleset.rules };
}
