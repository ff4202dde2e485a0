import type { ParameterName, RulesetParameters } from '../parameters-schema.js';
import type { RulesetData } from '../ruleset-schema.js';

type Row = RulesetData['rules'][number];
/** Some fields of a row; one that is `undefined` is taken away. */
type Change<T> = { readonly [Field in keyof T]?: T[Field] | undefined };

export interface RulesetChanges extends Pick<RulesetData, 'id' | 'revision' | 'source' | 'note'> {
  /** With a value: the whole row as it is now. Without: the fields that differ. */
  readonly parameters: {
    readonly [Name in ParameterName]?: RulesetParameters[Name] | Change<Omit<RulesetParameters[Name], 'value'>>;
  };
  /** By rule; null: no longer in the book. */
  readonly rules: Readonly<Record<string, Change<Row> | null>>;
}

/**
 * A later edition of a book as what it changes of an earlier one. All else, and the order of the rows, is the earlier one's.
 * @throws where a rule is named that the earlier edition does not have
 */
export function withChanges(earlier: RulesetData, { parameters, rules, ...head }: RulesetChanges): RulesetData {
  const unknown = Object.keys(rules).find((rule) => earlier.rules.every((row) => row.rule !== rule));
  if (unknown !== undefined) throw new Error(`${earlier.id} has no rule ${unknown} to be changed`);
  const rows = Object.entries(parameters).map(([name, change]) => [
    name,
    'value' in change ? change : changed(earlier.parameters[name as ParameterName], change),
  ]);
  return {
    ...head,
    // Each row is one of its own parameter's, some fields replaced by others of the same row.
    parameters: { ...earlier.parameters, ...Object.fromEntries(rows) } as RulesetParameters,
    rules: earlier.rules.flatMap((row) => {
      const change = rules[row.rule];
      return change === null ? [] : [changed(row, change ?? {})];
    }),
  };
}

function changed<T extends object>(row: T, change: object): T {
  return Object.fromEntries(Object.entries({ ...row, ...change }).filter(([, field]) => field !== undefined)) as T;
}
