import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { ENGINE_VERSION } from '../../verify/engine-version.js';
import { describe } from '../openapi/describe.js';
import { HttpProblem } from '../problems/http-problem.js';

const HealthSchema = Type.Object(
  { status: Type.Literal('ok'), engine: Type.String({ description: 'The engine’s version.' }) },
  { additionalProperties: true },
);

/** Liveness and readiness, for whoever runs the service. */
export const healthRoutes: FastifyPluginCallback = (app, _options, done) => {
  let closing = false;
  app.addHook('preClose', (closed) => {
    closing = true;
    closed();
  });

  app.get(
    '/healthz',
    {
      logLevel: 'warn',
      schema: describe({
        operationId: 'getHealth',
        tag: 'Operations',
        summary: 'Is the process alive?',
        description: 'Answers as long as the process can answer at all.',
        answer: { description: 'It is.', schema: HealthSchema },
      }),
    },
    (_request, reply) => reply.send({ status: 'ok', engine: ENGINE_VERSION }),
  );

  app.get(
    '/readyz',
    {
      logLevel: 'warn',
      schema: describe({
        operationId: 'getReadiness',
        tag: 'Operations',
        summary: 'Does this instance take new work?',
        description: 'No longer, once it has been told to stop; what it has begun it still finishes.',
        answer: { description: 'It does.', schema: HealthSchema },
        problems: ['shutting-down'],
      }),
    },
    (_request, reply) => {
      if (closing) throw new HttpProblem('shutting-down', 'This instance has been told to stop.');
      return reply.send({ status: 'ok', engine: ENGINE_VERSION });
    },
  );
  done();
};
