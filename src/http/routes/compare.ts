import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerCall } from '../calls/answer-call.js';
import { describe, LARGE_CALL } from '../openapi/describe.js';

/** Two revisions of one car. */
export const compareRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/compare',
    {
      schema: describe({
        operationId: 'compareCircuits',
        tag: 'Verification',
        summary: 'What changed between two revisions of a car',
        description:
          'Both revisions judged under one ruleset: findings resolved, new, changed and unchanged by rule; limits that moved; parts added, removed and changed, field by field in plain SI.',
        body: Type.Ref('CompareRequest'),
        answer: { description: 'What changed.', schema: Type.Ref('Comparison') },
        problems: LARGE_CALL,
      }),
    },
    (request, reply) => answerCall(request, reply, 'compare'),
  );
  done();
};
