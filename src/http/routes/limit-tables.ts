import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { csvLine, type CsvForm, numberText } from '../../render/csv/csv-cell.js';
import type { LimitTable } from '../../verify/cells/cell-schemas.js';
import { limitTable } from '../../verify/cells/limit-table.js';
import { readTable } from '../../verify/cells/read-table.js';
import { tableCapacities } from '../../verify/cells/table-capacities.js';
import { answerCell } from '../cells/answer-cell.js';
import { NO_VALUE } from '../cells/cell-formats.js';
import { cellQuerySchema, COMMON_PARAMETERS } from '../cells/cell-query.js';
import { CELL_ROUTE, cellContent } from '../cells/cell-route.js';
import { describe } from '../openapi/describe.js';

/** Many cells in one request: spreadsheets are sparing with requests. */
export const limitTableRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/v1/limit-tables',
    {
      ...CELL_ROUTE,
      schema: describe({
        operationId: 'computeLimitTable',
        tag: 'Verification',
        summary: 'One limit over a list of values',
        description: `A whole column of cells in one request: the limit \`name\` for each of \`values\` of the parameter \`over\`, all other parameters the same; at most ${tableCapacities.limitTableValues} values. As CSV with a heading; as text one bare number a line. With \`onError=text\` a value that cannot be read is an \`ERROR: …\` in its own row and harms no other.`,
        query: cellQuerySchema({
          name: Type.String({
            description: 'The limit; GET /v1/limits lists them.',
            examples: ['precharge-resistance-max-loads'],
          }),
          over: Type.String({ description: 'The parameter that varies.', examples: ['loadResistance'] }),
          values: Type.Array(Type.String(), {
            description: 'Its values, separated by commas, or the parameter repeated.',
            examples: [['10k,22k,47k']],
          }),
        }),
        answer: {
          description: 'A row for each value, in their order; or, with `onError=text`, what is wrong with the query.',
          content: cellContent('LimitTable'),
        },
        problems: ['uri-too-long'],
        cached: true,
      }),
    },
    (request, reply) =>
      answerCell(request, reply, {
        read: (query, { decimal, errorsAsText }) => {
          const { question, faults } = readTable(query, decimal, COMMON_PARAMETERS);
          // Faults of single values can stand in their rows; all others spoil the whole table.
          return { question, faults: errorsAsText && question !== undefined ? [] : faults };
        },
        identity: ({ limit, over, scalars, values }) => ({ limit: limit.meta.name, over, scalars, values }),
        answer: limitTable,
        csv: tableCsv,
        text: tableText,
      }),
  );
  done();
};

type Row = LimitTable['rows'][number];

function tableCsv({ over, rows }: LimitTable, form: CsvForm): string {
  const lines = rows.map((row) =>
    csvLine([row.input ?? NO_VALUE, row.error === undefined ? (row.value ?? NO_VALUE) : errorOf(row)], form),
  );
  return csvLine([over, 'value'], form) + lines.join('');
}

/** No line end after the last one, so that a table of one value is a cell. */
function tableText({ rows }: LimitTable, form: CsvForm): string {
  return rows
    .map((row) => {
      if (row.error !== undefined) return errorOf(row);
      return row.value === null ? NO_VALUE : numberText(row.value, form);
    })
    .join('\n');
}

function errorOf({ error = '' }: Row): string {
  return `ERROR: ${error}`;
}
