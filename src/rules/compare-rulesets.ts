import type { ParameterRow, RuleRow, Ruleset } from './ruleset.js';

export interface ParameterDifference {
  readonly parameter: string;
  readonly differs: ReadonlyArray<'value' | 'clause'>;
  readonly from: ParameterRow | null;
  readonly to: ParameterRow | null;
}

export interface RuleDifference {
  readonly rule: string;
  /** `presence`: only one of the two has such a row. */
  readonly differs: ReadonlyArray<'presence' | 'weight' | 'clauses'>;
  readonly from: RuleRow | null;
  readonly to: RuleRow | null;
}

export interface RulesetDifferences {
  readonly from: string;
  readonly to: string;
  /** In order of name. */
  readonly parameters: readonly ParameterDifference[];
  /** In order of rule id. */
  readonly rules: readonly RuleDifference[];
}

/** What differs between two rulesets, row by row: parameters by value and clause, rules by presence, weight and clauses. */
export function compareRulesets(a: Ruleset, b: Ruleset): RulesetDifferences {
  const names = sorted([...Object.keys(a.parameters), ...Object.keys(b.parameters)]);
  const parameters = names.map((parameter): ParameterDifference => {
    const from = a.parameters[parameter] ?? null;
    const to = b.parameters[parameter] ?? null;
    return {
      parameter,
      differs: (['value', 'clause'] as const).filter((field) => !same(from?.[field], to?.[field])),
      from,
      to,
    };
  });
  const rules = sorted([...a.rules, ...b.rules].map(({ rule }) => rule)).map((rule): RuleDifference => {
    const from = a.rules.find((row) => row.rule === rule) ?? null;
    const to = b.rules.find((row) => row.rule === rule) ?? null;
    if (from === null || to === null) return { rule, differs: ['presence'], from, to };
    return {
      rule,
      differs: (['weight', 'clauses'] as const).filter((field) => !same(from[field], to[field])),
      from,
      to,
    };
  });
  const changed = ({ differs }: { readonly differs: readonly string[] }) => differs.length > 0;
  return { from: a.id, to: b.id, parameters: parameters.filter(changed), rules: rules.filter(changed) };
}

function sorted(names: readonly string[]): readonly string[] {
  return [...new Set(names)].sort();
}

/** Values are JSON; the objects among them state their keys in one order in every data file. */
function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
