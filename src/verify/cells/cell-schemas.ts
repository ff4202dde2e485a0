import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { ref } from '../../circuit/schema/ref.js';
import { stringEnum } from '../../circuit/schema/string-enum.js';

const open = { additionalProperties: true };
const nullableNumber = (description: string) => Type.Unsafe<number | null>({ type: ['number', 'null'], description });

const about = {
  name: Type.String(),
  title: Type.String(),
  bound: stringEnum(['min', 'max']),
  rule: Type.String({ description: 'The rule it serves.' }),
  unit: Type.String({ description: 'Of the value; empty for a ratio.' }),
};

const withoutBound = {
  outcome: Type.Optional(
    stringEnum(['no-value-helps', 'no-value-hurts'], {
      description: 'Only where there is no bound: no value of the part is good enough, or every one is.',
    }),
  ),
  note: Type.Optional(Type.String({ description: 'Why there is no bound, in a sentence.' })),
};

const inputs = Type.Unsafe<Record<string, number | number[]>>({
  type: 'object',
  additionalProperties: { anyOf: [{ type: 'number' }, { type: 'array', items: { type: 'number' } }] },
  description: 'What the query said, in SI.',
});

export const LimitParameterSchema = Type.Object(
  {
    name: Type.String({ description: 'Of the query parameter.' }),
    required: Type.Boolean(),
    repeatable: Type.Boolean({ description: 'True where several may be given: they stand in parallel.' }),
    unit: Type.String({ description: 'In which a plain number counts; empty for a ratio.' }),
    description: Type.String(),
    accepted: Type.String(),
    example: Type.String(),
  },
  { $id: 'LimitParameter', ...open },
);

export const LimitDescriptionSchema = Type.Object(
  {
    ...about,
    formula: Type.String({ description: 'In words, for a whole circuit.' }),
    scalarFormula: Type.String({ description: 'In symbols, as a cell computes it.' }),
    parameters: Type.Array(ref(LimitParameterSchema)),
    sources: Type.Array(Type.String()),
    example: Type.String({ description: 'An address that is answered.' }),
  },
  { $id: 'LimitDescription', ...open, description: 'One limit, and what a cell needs to compute it.' },
);

export const LimitCellSchema = Type.Object(
  {
    ...about,
    value: nullableNumber('The bound as a nominal value, in `unit`; null: there is none, and `note` says why.'),
    ...withoutBound,
    inputs,
    basis: Type.String({ description: 'The formula, and the numbers put in.' }),
    sources: Type.Array(Type.String()),
    engine: Type.String({ description: 'The engine’s version.' }),
  },
  { $id: 'LimitCell', ...open, description: 'One limit from scalars alone.' },
);
export type LimitCell = Static<typeof LimitCellSchema>;

export const LimitRowSchema = Type.Object(
  {
    input: nullableNumber('Of the parameter that varies, in SI; null: it could not be read.'),
    value: nullableNumber('The bound; null: there is none, and `note` says why.'),
    ...withoutBound,
    error: Type.Optional(Type.String({ description: 'Why the input could not be read (only with `onError=text`).' })),
  },
  { $id: 'LimitRow', ...open },
);

export const LimitTableSchema = Type.Object(
  {
    ...about,
    over: Type.String({ description: 'The parameter that varies.' }),
    overUnit: Type.String({ description: 'Its unit.' }),
    inputs,
    formula: Type.String({ description: 'In symbols.' }),
    rows: Type.Array(ref(LimitRowSchema), { description: 'In the order of `values`.' }),
    sources: Type.Array(Type.String()),
    engine: Type.String({ description: 'The engine’s version.' }),
  },
  { $id: 'LimitTable', ...open, description: 'One limit over several values of one parameter.' },
);
export type LimitTable = Static<typeof LimitTableSchema>;

/** Every schema with an `$id` of cells and tables. */
export const cellSchemas: readonly TSchema[] = [
  LimitParameterSchema,
  LimitDescriptionSchema,
  LimitCellSchema,
  LimitRowSchema,
  LimitTableSchema,
];
