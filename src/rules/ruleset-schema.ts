import { type Static, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';
import { ConfirmedSchema, ParametersSchema } from './parameters-schema.js';

const RuleRowSchema = Type.Object(
  {
    rule: Type.String({ pattern: '^[a-z]+(-[a-z]+)*$' }),
    weight: stringEnum(['rule', 'advice']),
    clauses: Type.Array(Type.String({ minLength: 1 }), { uniqueItems: true }),
    confirmed: ConfirmedSchema,
  },
  { additionalProperties: false },
);

/** A ruleset as its data file states it; the conditions for the floors below are derived from it. */
export const RulesetDataSchema = Type.Object(
  {
    id: Type.String({ pattern: '^[a-z]+(-[a-z]+)*-[0-9]{4}$' }),
    revision: Type.String({ pattern: '^[0-9]+$' }),
    source: Type.Object(
      { document: Type.String({ minLength: 1 }), version: Type.String({ minLength: 1 }) },
      { additionalProperties: false },
    ),
    note: Type.String({ minLength: 1, pattern: '\\.$' }),
    parameters: ParametersSchema,
    rules: Type.Array(RuleRowSchema, { minItems: 1 }),
  },
  { $id: 'RulesetData', additionalProperties: false },
);

export type RulesetData = Static<typeof RulesetDataSchema>;
