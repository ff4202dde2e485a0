import type { Static } from '@sinclair/typebox';
import { acceptedCell } from './accepted-cell.js';
import { arrangements } from './arrangements.js';
import { columns } from './columns/columns.js';
import { exampleRows } from './example-rows.js';
import { columnUnit, NOT_STATED } from './read-cell.js';
import type { RowsAnswerSchema } from './row-schema.js';

/** The columns and arrangements of a flat row, for GET /v1/rows. */
export function rowsAnswer(): Static<typeof RowsAnswerSchema> {
  return {
    columns: columns.map((column) => {
      const { name, meaning, cell, required } = column;
      const unit = columnUnit(column);
      const example = exampleRows.map((row) => row[name]).find((text) => text !== undefined);
      return {
        name,
        meaning,
        accepts: acceptedCell(column),
        ...(unit === undefined ? {} : { unit }),
        ...('words' in cell ? { words: [...cell.words] } : {}),
        ...(required === undefined ? {} : { required }),
        ...(example === undefined ? {} : { example }),
      };
    }),
    arrangements: arrangements.map(({ id, title, description }, index) => ({
      id,
      title,
      description,
      example: exampleRows[index] ?? {},
    })),
    notStated: [...NOT_STATED],
  };
}

/** The template: the headings, and one invented car for each arrangement to be replaced by real ones. */
export function rowsTemplate(): string[][] {
  const names = columns.map(({ name }) => name);
  return [names, ...exampleRows.map((row) => names.map((name) => row[name] ?? ''))];
}
