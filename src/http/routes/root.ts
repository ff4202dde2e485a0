import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { describe } from '../openapi/describe.js';

const list = {
  service: 'Risefall',
  caution: 'This is high voltage and it can kill. Read the cautions of the manual before anything else.',
  links: {
    docs: '/docs',
    openapi: '/openapi.json',
    verify: '/v1/verify',
    batch: '/v1/verify/batch',
    compare: '/v1/compare',
    rulesets: '/v1/rulesets',
    rules: '/v1/rules',
    limits: '/v1/limits',
    rows: '/v1/rows',
    examples: '/v1/examples',
    capacities: '/v1/capacities',
    schemas: '/v1/schemas',
    problems: '/problems',
    health: '/healthz',
  },
};

/** What one who knows only the host's name needs next. */
export const rootRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/',
    {
      schema: describe({
        operationId: 'getRoot',
        tag: 'Operations',
        summary: 'Where to go from here',
        description: 'The addresses of the manual, the description and the catalogue.',
        answer: {
          description: 'Addresses by name.',
          schema: Type.Object(
            {
              service: Type.String(),
              caution: Type.String(),
              links: Type.Record(Type.String(), Type.String()),
            },
            { additionalProperties: true },
          ),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );
  done();
};
