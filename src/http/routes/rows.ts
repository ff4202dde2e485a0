import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { csvLine } from '../../render/csv/csv-cell.js';
import { drawCircuit } from '../../verify/rows/draw-circuit.js';
import { rowsAnswer, rowsTemplate } from '../../verify/rows/rows-answer.js';
import { batchQueryFaults, readBatchQuery } from '../bulk/batch-query.js';
import { decimalParameter } from '../bulk/decimal-parameter.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { describe } from '../openapi/describe.js';
import { invalidRequest } from '../problems/as-problem.js';

const FORMATS = { json: 'application/json', csv: 'text/csv' } as const;

/** Without it some spreadsheets do not take a file for UTF-8, and µ, Ω and ° become something else. */
const BOM = '\uFEFF';

/** Cars as flat rows: the columns there are, and the circuit that a row stands for. */
export const rowRoutes: FastifyPluginCallback = (app, _options, done) => {
  const list = rowsAnswer();
  const template = `${BOM}${rowsTemplate()
    .map((cells) => csvLine(cells))
    .join('')}`;

  app.get(
    '/v1/rows',
    {
      config: { produces: Object.values(FORMATS), formats: FORMATS },
      schema: describe({
        operationId: 'listRowColumns',
        tag: 'Catalogue',
        summary: 'The columns of a flat row',
        description:
          'What a table must have for its rows to be read as cars: one row a car, one column a fact; and the arrangements that a row can name. As CSV: a template with one invented car for each arrangement, to be replaced by real ones.',
        formats: Object.keys(FORMATS),
        answer: {
          description: 'Columns and arrangements, or the template.',
          content: { 'application/json': Type.Ref('RowsAnswer'), 'text/csv': Type.String() },
        },
        cached: true,
      }),
    },
    (request, reply) => {
      if (request.answerType !== FORMATS.csv) return sendCatalogue(request, reply, list);
      return sendCatalogue(request, reply.header('content-disposition', 'attachment; filename="rows.csv"'), template);
    },
  );

  app.post(
    '/v1/circuits',
    {
      config: { parameters: ['decimal'], parameterFaults: ({ decimal }) => batchQueryFaults({ decimal }) },
      schema: describe({
        operationId: 'drawCircuit',
        tag: 'Circuits',
        summary: 'The full circuit that a flat row stands for',
        description:
          'Draws the circuit of a row, ready to be edited and posted to any call that takes one; or reads a circuit and answers it in plain SI. Faults of a row point at its columns. A cell that decides how the circuit is wired must be filled; any other empty cell leaves its field not stated.',
        body: Type.Ref('DrawRequest'),
        query: Type.Object({ decimal: decimalParameter }, { additionalProperties: false }),
        answer: { description: 'The circuit in plain SI.', schema: Type.Ref('DrawAnswer') },
      }),
    },
    (request, reply) => {
      const reading = drawCircuit(request.body, { decimal: readBatchQuery(request.query).defaults.decimal });
      if ('faults' in reading) throw invalidRequest(reading.faults);
      return reply.send(reading.answer);
    },
  );
  done();
};
