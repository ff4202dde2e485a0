import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { CircuitSchema } from '../../circuit/schema/circuit.js';
import { EventSchema } from '../../circuit/schema/event.js';
import { ref } from '../../circuit/schema/ref.js';
import { stringEnum } from '../../circuit/schema/string-enum.js';
import { VERDICTS } from '../../rules/finding.js';
import { ReportSchema } from '../report.js';
import { RowSchema } from '../rows/row-schema.js';

const open = { additionalProperties: true };
const count = (description: string) => Type.Integer({ minimum: 0, description });
const rules = (description: string) => Type.Array(Type.String(), { description });

/** Characters of an item's id. */
export const ID_LENGTH = 200;

export const BatchItemSchema = Type.Object(
  {
    id: Type.Optional(
      Type.Unsafe<string | number>({
        type: ['string', 'integer'],
        maxLength: ID_LENGTH,
        description: 'The caller’s own name for the item, answered back. A row without one is named by its `car`.',
      }),
    ),
    circuit: Type.Optional(ref(CircuitSchema)),
    row: Type.Optional(ref(RowSchema)),
    ruleset: Type.Optional(
      Type.String({ description: 'Required here or, for all items without one, as the query’s `ruleset`.' }),
    ),
    event: Type.Optional(ref(EventSchema, { description: 'In place of what the query says.' })),
  },
  {
    $id: 'BatchItem',
    additionalProperties: false,
    description: 'One car to be judged: exactly one of `circuit` and `row`. One line of NDJSON, or one item of a list.',
  },
);

const place = {
  index: Type.Integer({ minimum: 0, description: 'The item’s position, from 0; blank lines do not count.' }),
  id: Type.Unsafe<string | number | null>({ type: ['string', 'integer', 'null'], description: 'The item’s own id.' }),
  line: Type.Optional(Type.Integer({ minimum: 1, description: 'Where it begins in the file, from 1.' })),
  status: Type.Integer({ description: 'What a call of its own would have been answered with: 200, or the problem’s.' }),
};

/** What is said of a car with `detail=verdict`; a part of `BatchVerdict`, so without a name of its own. */
const VerdictAnswerSchema = Type.Object(
  {
    verdict: stringEnum(VERDICTS),
    violated: rules('Rules of the ruleset that are violated.'),
    undetermined: rules('Rules of the ruleset that the description leaves open.'),
    advice: rules('Good practice that is not followed.'),
    message: Type.Optional(Type.String({ description: 'The first finding that decides the verdict.' })),
  },
  open,
);
export type VerdictAnswer = Static<typeof VerdictAnswerSchema>;

const rowNotes = {
  extra: Type.Optional(Type.Record(Type.String(), Type.Unknown(), { description: 'A row’s own further columns.' })),
  notes: Type.Optional(Type.Array(Type.String(), { description: 'Columns whose names look like a misspelling.' })),
};

export const BatchVerdictSchema = Type.Object(
  { ...place, ...VerdictAnswerSchema.properties, ...rowNotes },
  { $id: 'BatchVerdict', ...open, description: 'An item’s answer with `detail=verdict`.' },
);

export const BatchReportSchema = Type.Object(
  { ...place, ...ReportSchema.properties, ...rowNotes },
  { $id: 'BatchReport', ...open, description: 'An item’s answer with `detail=full`: its place and the whole report.' },
);

export const BatchCountsSchema = Type.Object(
  {
    count: count('Items answered.'),
    violationFound: count('Items with this verdict.'),
    undetermined: count('Items with this verdict.'),
    noViolationFound: count('Items with this verdict.'),
    errors: count('Items answered with a problem.'),
  },
  { $id: 'BatchCounts', ...open },
);
export type BatchCounts = Static<typeof BatchCountsSchema>;

/** Fields of an item's problem, which is the HTTP floor's to shape. */
export const BatchProblemSchema = Type.Object(
  { ...place, problem: Type.Unsafe<object>(Type.Ref('Problem')) },
  { $id: 'BatchProblem', ...open, description: 'An item that could not be answered, and why.' },
);

export const BatchEndSchema = Type.Object(
  { summary: ref(BatchCountsSchema) },
  { $id: 'BatchEnd', ...open, description: 'The last line. Where it is missing the answer is not complete.' },
);

const anyItem = Type.Unsafe<unknown>({
  anyOf: ['BatchVerdict', 'BatchReport', 'BatchProblem'].map((name) => Type.Ref(name)),
});

export const BatchAnswerSchema = Type.Object(
  { results: Type.Array(anyItem), summary: ref(BatchCountsSchema) },
  { $id: 'BatchAnswer', ...open, description: 'All items in order, and how many there were of each kind.' },
);

/** Every schema with an `$id` of batches. */
export const batchSchemas: readonly TSchema[] = [
  BatchItemSchema,
  BatchVerdictSchema,
  BatchReportSchema,
  BatchProblemSchema,
  BatchCountsSchema,
  BatchEndSchema,
  BatchAnswerSchema,
];
