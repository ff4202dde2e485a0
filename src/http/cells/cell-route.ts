import { Type } from '@sinclair/typebox';
import { answerErrorsAsText } from './answer-errors-as-text.js';
import { CELL_FORMATS } from './cell-formats.js';

/** Options of every route that answers cells: the forms it has, its own reading of the query, and faults as text on demand. */
export const CELL_ROUTE = {
  config: { produces: Object.values(CELL_FORMATS), formats: CELL_FORMATS, ownQuery: true },
  errorHandler: answerErrorsAsText,
} as const;

/** The bodies of such an answer. */
export function cellContent(schema: string) {
  return {
    [CELL_FORMATS.json]: Type.Ref(schema),
    [CELL_FORMATS.text]: Type.String(),
    [CELL_FORMATS.csv]: Type.String(),
  };
}
