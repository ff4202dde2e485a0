import type { Readable } from 'node:stream';
import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerTypeOf } from '../bulk/answer-type.js';
import { BATCH_BODIES, readBatchBody, takeBodiesAsStreams } from '../bulk/batch-body.js';
import { BATCH_FORMATS, batchQueryFaults, BatchQuerySchema, readBatchQuery } from '../bulk/batch-query.js';
import { runBatch } from '../bulk/run-batch.js';
import { describe } from '../openapi/describe.js';

const DESCRIPTION = `Any number of cars in one request, as lines of JSON, as a JSON list, or as a table of flat rows; answered in the same order while they arrive, by all cores. A faulty item is answered in its place and harms no other.

Each item is answered as \`{index, id, line, status, …}\`: \`status\` is what a call of its own would have had, and in place of a result an item may have a \`problem\`. Lines end with \`{"summary": …}\`; where it is missing the answer is not complete. A table comes back with its own columns, the results behind them, and no last line. Cells that a spreadsheet could take for a formula begin with an apostrophe.

Read while you send: beyond a few megabytes of answers that nobody reads no more items are taken. A lost connection ends the work.`;

/** A whole event's submissions in one stream. */
export const batchRoutes: FastifyPluginCallback = (app, _options, done) => {
  takeBodiesAsStreams(app);

  app.post(
    '/v1/verify/batch',
    {
      config: {
        produces: Object.values(BATCH_FORMATS),
        formats: BATCH_FORMATS,
        parameters: ['detail', 'ruleset', 'meterResistance', 'decimal'],
        parameterFaults: batchQueryFaults,
      },
      schema: describe({
        operationId: 'verifyBatch',
        tag: 'Verification',
        summary: 'Many cars in one stream',
        description: DESCRIPTION,
        bodies: Object.fromEntries(
          BATCH_BODIES.map((type) => [
            type,
            type === 'application/json' ? Type.Array(Type.Ref('BatchItem')) : bodyText(type),
          ]),
        ),
        query: BatchQuerySchema,
        answer: {
          description: 'The results in order, or one summary of all.',
          content: {
            [BATCH_FORMATS.json]: Type.Unsafe({ anyOf: [Type.Ref('BatchAnswer'), Type.Ref('EventSummary')] }),
            [BATCH_FORMATS.ndjson]: Type.Unsafe({
              description: 'One of these a line.',
              anyOf: ['BatchVerdict', 'BatchReport', 'BatchProblem', 'BatchEnd'].map((name) => Type.Ref(name)),
            }),
            [BATCH_FORMATS.csv]: Type.String(),
            [BATCH_FORMATS.markdown]: Type.String(),
          },
        },
        problems: ['malformed-csv', 'busy'],
      }),
    },
    async (request, reply) => {
      const body = readBatchBody(request.headers['content-type'], request.headers['content-encoding']);
      const query = readBatchQuery(request.query);
      const { format } = request.query as { readonly format?: unknown };
      const wish = { answerType: request.answerType, format, accept: request.headers.accept };
      const type = answerTypeOf(wish, body.form, query.detail);
      return runBatch({ app, request, reply, items: request.body as Readable, body, query, type });
    },
  );
  done();
};

function bodyText(type: string) {
  const what = type === 'text/csv' ? 'A table whose first line names its columns.' : 'One `BatchItem` a line.';
  return Type.String({ description: what });
}
