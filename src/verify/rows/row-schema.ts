import { type TSchema, Type } from '@sinclair/typebox';
import { CircuitSchema } from '../../circuit/schema/circuit.js';
import { EventSchema } from '../../circuit/schema/event.js';
import { ref } from '../../circuit/schema/ref.js';
import { CheckAnswerSchema } from '../check-circuit.js';
import { acceptedCell } from './accepted-cell.js';
import { columns } from './columns/columns.js';
import { exampleRows } from './example-rows.js';

const cell = (description: string) =>
  Type.Unsafe<string | number | boolean | null>({ type: ['string', 'number', 'boolean', 'null'], description });

export const RowSchema = Type.Unsafe<Readonly<Record<string, unknown>>>({
  $id: 'Row',
  type: 'object',
  description:
    'One car as one row of a table: one field a column, any further column kept and returned. Case, spaces and hyphens in a name do not count. An empty cell is ‘not stated’. GET /v1/rows lists the columns.',
  properties: Object.fromEntries(
    columns.map((column) => [column.name, cell(`${column.meaning} ${sentence(acceptedCell(column))}`)]),
  ),
  additionalProperties: true,
  examples: [exampleRows[0]],
});

export const DrawRequestSchema = Type.Object(
  {
    row: Type.Optional(ref(RowSchema)),
    circuit: Type.Optional(ref(CircuitSchema)),
    event: Type.Optional(
      ref(EventSchema, { description: 'Where it states the organiser’s meter a row need not state one.' }),
    ),
  },
  { $id: 'DrawRequest', additionalProperties: false, description: 'Exactly one of `row` and `circuit`.' },
);

const open = { additionalProperties: true };

export const RowNotesSchema = Type.Object(
  {
    arrangement: Type.String(),
    car: Type.Optional(Type.String()),
    extra: Type.Record(Type.String(), Type.Unknown(), { description: 'The caller’s own columns, as given.' }),
    notes: Type.Array(Type.String(), { description: 'Own columns whose names look like a misspelling.' }),
  },
  { $id: 'RowAsRead', ...open, description: 'What of a row is not in the circuit.' },
);

export const DrawAnswerSchema = Type.Object(
  { ...CheckAnswerSchema.properties, row: Type.Optional(ref(RowNotesSchema)) },
  {
    $id: 'DrawAnswer',
    ...open,
    description: 'The full circuit in plain SI, ready to be edited and posted to any call that takes one.',
  },
);

export const ColumnAnswerSchema = Type.Object(
  {
    name: Type.String(),
    meaning: Type.String(),
    accepts: Type.String({ description: 'What a cell may hold.' }),
    unit: Type.Optional(Type.String({ description: 'What a bare number counts in; empty for a ratio.' })),
    words: Type.Optional(Type.Array(Type.String())),
    required: Type.Optional(Type.String({ description: 'When the cell must be filled; absent: never.' })),
    example: Type.Optional(Type.String()),
  },
  { $id: 'Column', ...open },
);

export const ArrangementAnswerSchema = Type.Object(
  {
    id: Type.String(),
    title: Type.String(),
    description: Type.String({ description: 'What choosing it states of the car.' }),
    example: ref(RowSchema),
  },
  { $id: 'Arrangement', ...open },
);

export const RowsAnswerSchema = Type.Object(
  {
    columns: Type.Array(ref(ColumnAnswerSchema)),
    arrangements: Type.Array(ref(ArrangementAnswerSchema)),
    notStated: Type.Array(Type.String(), { description: 'Cells that count as not stated, in any case.' }),
  },
  { $id: 'RowsAnswer', ...open, description: 'How a car is described as one flat row.' },
);

/** Every schema with an `$id` of flat rows. */
export const rowSchemas: readonly TSchema[] = [
  RowSchema,
  DrawRequestSchema,
  RowNotesSchema,
  DrawAnswerSchema,
  ColumnAnswerSchema,
  ArrangementAnswerSchema,
  RowsAnswerSchema,
];

function sentence(text: string): string {
  return `${text.replace(/^./, (letter) => letter.toUpperCase())}.`;
}
