import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { readExamples } from '../catalogue/read-examples.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { describe } from '../openapi/describe.js';
import { HttpProblem } from '../problems/http-problem.js';

/** Invented cars to try the service with: sound ones, and one typical mistake each. */
export const exampleRoutes: FastifyPluginCallback = (app, _options, done) => {
  const examples = readExamples();
  const list = { examples: examples.map(({ id, title, summary }) => ({ id, title, summary })) };

  app.get(
    '/v1/examples',
    {
      schema: describe({
        operationId: 'listExamples',
        tag: 'Catalogue',
        summary: 'Every example',
        description: 'Cars of an invented event, each a body for POST /v1/verify.',
        answer: {
          description: 'Ids, titles and summaries.',
          schema: Type.Object(
            {
              examples: Type.Array(
                Type.Object(
                  { id: Type.String(), title: Type.String(), summary: Type.String() },
                  { additionalProperties: true },
                ),
              ),
            },
            { additionalProperties: true },
          ),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );

  app.get<{ Params: { id: string } }>(
    '/v1/examples/:id',
    {
      schema: describe({
        operationId: 'getExample',
        tag: 'Catalogue',
        summary: 'One example',
        description: '`request` is a body for POST /v1/verify as it stands.',
        params: Type.Object({ id: Type.String() }),
        answer: { description: 'The example.', schema: Type.Ref('Example') },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) => {
      const example = examples.find(({ id }) => id === request.params.id);
      if (example === undefined)
        throw new HttpProblem('not-found', 'No example has this id; GET /v1/examples lists all.');
      return sendCatalogue(request, reply, example);
    },
  );
  done();
};
