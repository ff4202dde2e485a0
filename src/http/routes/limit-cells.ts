import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { csvLine, type CsvForm, numberText } from '../../render/csv/csv-cell.js';
import type { LimitCell } from '../../verify/cells/cell-schemas.js';
import { limitByName, noSuchLimit } from '../../verify/cells/limit-by-name.js';
import { limitCell } from '../../verify/cells/limit-cell.js';
import { limitDescriptions } from '../../verify/cells/limit-descriptions.js';
import { readScalars } from '../../verify/cells/read-scalars.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { answerCell } from '../cells/answer-cell.js';
import { NO_VALUE } from '../cells/cell-formats.js';
import { cellQuerySchema, COMMON_PARAMETERS } from '../cells/cell-query.js';
import { CELL_ROUTE, cellContent } from '../cells/cell-route.js';
import { describe } from '../openapi/describe.js';
import { HttpProblem } from '../problems/http-problem.js';

/** Limits from scalars alone, for spreadsheet cells, bots and documents. */
export const limitCellRoutes: FastifyPluginCallback = (app, _options, done) => {
  const list = { limits: limitDescriptions() };

  app.get(
    '/v1/limits',
    {
      schema: describe({
        operationId: 'listLimits',
        tag: 'Catalogue',
        summary: 'Every limit, and what a cell needs to compute it',
        description:
          'Name, unit, rule and formula of each limit, the query parameters it reads, and an example address.',
        answer: {
          description: 'The limits, in the order in which they are answered.',
          schema: Type.Object({ limits: Type.Array(Type.Ref('LimitDescription')) }, { additionalProperties: true }),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );

  app.get<{ Params: { name: string } }>(
    '/v1/limits/:name',
    {
      ...CELL_ROUTE,
      schema: describe({
        operationId: 'computeLimit',
        tag: 'Verification',
        summary: 'One limit from a few numbers',
        description:
          'For a spreadsheet cell or a bot: the textbook form of the limit, each part at the value given. With `format=text` the answer is the bare number: no unit, no exponent, no line end, at most nine significant digits; `n/a` where there is no such bound. All faults of a query come in one answer; a name that no limit has is 404, whatever the query. A whole circuit, with tolerances and every state, is what POST /v1/limits is for.',
        params: Type.Object({ name: Type.String({ description: 'GET /v1/limits lists them.' }) }),
        query: cellQuerySchema(),
        answer: {
          description: 'The limit; or, with `onError=text`, what is wrong with the query.',
          content: cellContent('LimitCell'),
        },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) =>
      answerCell(request, reply, {
        read: (query, { decimal }) => {
          const limit = limitByName(request.params.name);
          if (limit === undefined) throw new HttpProblem('not-found', noSuchLimit(request.params.name));
          const reading = readScalars({ limit, query, decimal, others: COMMON_PARAMETERS });
          return 'faults' in reading ? reading : { question: { limit, scalars: reading.scalars }, faults: [] };
        },
        identity: ({ limit, scalars }) => ({ limit: limit.meta.name, scalars }),
        answer: ({ limit, scalars }) => limitCell(limit, scalars),
        csv: cellCsv,
        text: ({ value }, form) => (value === null ? NO_VALUE : numberText(value, form)),
      }),
  );
  done();
};

/** The value first, where a formula can count on it; what it was made from behind. */
function cellCsv({ name, bound, rule, unit, value, inputs }: LimitCell, form: CsvForm): string {
  const cells = Object.values(inputs).map((input) => (typeof input === 'number' ? input : listCell(input, form)));
  return (
    csvLine(['value', 'unit', 'limit', 'bound', 'rule', ...Object.keys(inputs)], form) +
    csvLine([value ?? NO_VALUE, unit, name, bound, rule, ...cells], form)
  );
}

function listCell(values: readonly number[], { decimal }: CsvForm): string {
  return values.map((value) => numberText(value, { decimal })).join(' ');
}
