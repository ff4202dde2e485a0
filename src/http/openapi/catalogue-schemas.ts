import { type TSchema, Type } from '@sinclair/typebox';
import { stringEnum } from '../../circuit/schema/string-enum.js';

const open = { additionalProperties: true };
const confirmed = stringEnum(['read', 'second-hand', 'memory', 'ours'], {
  description: 'How sure we are: read in the source, known second-hand, from memory, or ours where the book is silent.',
});
const source = Type.Object({ document: Type.String(), version: Type.String() }, open);

export const RulesetSummarySchema = Type.Object(
  { id: Type.String(), revision: Type.String(), source, note: Type.Optional(Type.String()) },
  { $id: 'RulesetSummary', ...open },
);

export const RulesetAnswerSchema = Type.Object(
  {
    id: Type.String(),
    revision: Type.String(),
    source,
    note: Type.Optional(Type.String()),
    parameters: Type.Array(
      Type.Object(
        {
          name: Type.String(),
          value: Type.Unknown({ description: 'SI.' }),
          unit: Type.Optional(Type.String()),
          clause: Type.Optional(Type.String()),
          confirmed,
          note: Type.Optional(Type.String()),
          overridable: Type.Boolean({ description: 'True where an event may replace it.' }),
        },
        open,
      ),
    ),
    rules: Type.Array(
      Type.Object(
        { rule: Type.String(), weight: stringEnum(['rule', 'advice']), clauses: Type.Array(Type.String()), confirmed },
        open,
      ),
    ),
  },
  { $id: 'Ruleset', ...open, description: 'A rulebook as data.' },
);

const parameterRow = Type.Unsafe<object | null>({
  type: ['object', 'null'],
  additionalProperties: true,
  description: 'The row with its value, clause and `confirmed`; null: this ruleset has none.',
});

const ruleRow = Type.Unsafe<object | null>({
  type: ['object', 'null'],
  additionalProperties: true,
  description: 'The row with its weight, clauses and `confirmed`; null: the rule is not in this ruleset.',
});

export const RulesetDifferencesSchema = Type.Object(
  {
    from: Type.String(),
    to: Type.String(),
    parameters: Type.Array(
      Type.Object(
        {
          parameter: Type.String(),
          differs: Type.Array(stringEnum(['value', 'clause'])),
          from: parameterRow,
          to: parameterRow,
        },
        open,
      ),
      { description: 'In order of name.' },
    ),
    rules: Type.Array(
      Type.Object(
        {
          rule: Type.String(),
          differs: Type.Array(stringEnum(['presence', 'weight', 'clauses'])),
          from: ruleRow,
          to: ruleRow,
        },
        open,
      ),
      { description: 'In order of rule.' },
    ),
  },
  {
    $id: 'RulesetDifferences',
    ...open,
    description: 'What changes from one rulebook to another; what is the same is left out.',
  },
);

export const RuleAnswerSchema = Type.Object(
  {
    id: Type.String(),
    title: Type.String(),
    rationale: Type.String({ description: 'Why the rule exists.' }),
    parameters: Type.Array(Type.String({ description: 'Of the ruleset, that it reads.' })),
    inspect: Type.String({ description: 'What to look at on the real car.' }),
    rulesets: Type.Array(
      Type.Object(
        { id: Type.String(), weight: stringEnum(['rule', 'advice']), clauses: Type.Array(Type.String()) },
        open,
      ),
      { description: 'Where it is in force.' },
    ),
  },
  { $id: 'Rule', ...open },
);

export const ExampleSchema = Type.Object(
  {
    id: Type.String(),
    title: Type.String(),
    summary: Type.String(),
    request: Type.Object({}, { ...open, description: 'A body for POST /v1/verify.' }),
    expected: Type.Optional(Type.Object({}, { ...open, description: 'What the verdict is, worked out by hand.' })),
  },
  { $id: 'Example', ...open, description: 'An invented car.' },
);

export const catalogueSchemas: readonly TSchema[] = [
  RulesetSummarySchema,
  RulesetAnswerSchema,
  RulesetDifferencesSchema,
  RuleAnswerSchema,
  ExampleSchema,
];
