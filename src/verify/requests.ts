import { type TSchema, Type } from '@sinclair/typebox';
import { capacities } from '../circuit/capacities.js';
import { CircuitSchema } from '../circuit/schema/circuit.js';
import { EventSchema } from '../circuit/schema/event.js';
import { ref } from '../circuit/schema/ref.js';
import { StockSchema } from './stock/read-stock.js';
import { StockPartSchema } from './stock/stock-part-schema.js';

const strict = { additionalProperties: false };

/** A circuit judged under one ruleset or several: the body of verify, findings and limits. */
export const JudgeRequestSchema = Type.Object(
  {
    circuit: ref(CircuitSchema),
    ruleset: Type.Optional(
      Type.String({
        description: 'The ruleset’s id. One of `ruleset` and `rulesets` is required.',
        examples: ['student-ev-2020'],
      }),
    ),
    rulesets: Type.Optional(
      Type.Array(Type.String(), {
        minItems: 1,
        maxItems: capacities.rulesets,
        uniqueItems: true,
        description: 'Several at once; the answer is then `{reports: […]}`, in this order.',
      }),
    ),
    event: Type.Optional(ref(EventSchema)),
  },
  { $id: 'JudgeRequest', ...strict, description: 'A circuit and the rulebook to judge it by.' },
);

/** The same and how much to tell: the body of verify. */
export const VerifyRequestSchema = Type.Object(
  {
    ...JudgeRequestSchema.properties,
    sensitivities: Type.Optional(
      Type.Boolean({
        description:
          'Whether to say with the figures of `precharge` and with `timeToLimit` which parts move them most. Not stated: no.',
      }),
    ),
  },
  { $id: 'VerifyRequest', ...strict, description: 'A circuit, the rulebook to judge it by, and how much to tell.' },
);

/** The same with what is at hand: the body of limits. */
export const LimitsRequestSchema = Type.Object(
  { ...JudgeRequestSchema.properties, stock: Type.Optional(StockSchema) },
  { $id: 'LimitsRequest', ...strict, description: 'A circuit, the rulebook to judge it by, and parts at hand.' },
);

export const CheckRequestSchema = Type.Object(
  { circuit: ref(CircuitSchema) },
  { $id: 'CheckRequest', ...strict, description: 'A circuit to be read and answered in plain SI.' },
);

export const requestSchemas: readonly TSchema[] = [
  JudgeRequestSchema,
  VerifyRequestSchema,
  StockPartSchema,
  LimitsRequestSchema,
  CheckRequestSchema,
];
