import { conditionsOf } from './conditions-of.js';
import { type OverridableName, type Overrides, overridableParameters } from './overridable-parameters.js';
import type { Ruleset } from './ruleset.js';

export interface Override {
  readonly parameter: OverridableName;
  readonly from: unknown;
  readonly to: unknown;
}

export interface OverriddenRuleset {
  readonly ruleset: Ruleset;
  /** What the event changed, in the order of `overridableParameters`; a value equal to the book's is listed too. */
  readonly overrides: readonly Override[];
}

/**
 * A new ruleset with an organiser's own values and energy meter in it; the given one stays as it is. An overridden row keeps
 * its clause and is marked `overridden`.
 * @param event `parameters` as `OverridesSchema` admits them; `meterResistance` in Ω.
 */
export function withOverrides(
  ruleset: Ruleset,
  event: { readonly meterResistance?: number | undefined; readonly parameters?: Overrides | undefined } = {},
): OverriddenRuleset {
  const given = event.parameters ?? {};
  const overrides = overridableParameters
    .filter(({ name }) => given[name] !== undefined)
    .map(({ name }) => ({ parameter: name, from: ruleset.parameters[name].value, to: given[name] }));
  const rows = overrides.map(({ parameter, to }) => [
    parameter,
    { ...ruleset.parameters[parameter], value: to, overridden: true },
  ]);
  // Each value came through the schema of its own row's values.
  const parameters = { ...ruleset.parameters, ...Object.fromEntries(rows) } as Ruleset['parameters'];
  return {
    ruleset: { ...ruleset, parameters, conditions: conditionsOf(parameters, event.meterResistance) },
    overrides,
  };
}
