import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { compareCircuits } from '../../verify/compare/compare-circuits.js';
import { readRevisions } from '../../verify/compare/read-revisions.js';
import { describe } from '../openapi/describe.js';
import { invalidRequest } from '../problems/as-problem.js';

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
        problems: ['too-costly'],
      }),
    },
    (request, reply) => {
      const reading = readRevisions(request.body);
      if ('faults' in reading) throw invalidRequest(reading.faults);
      return reply.send(compareCircuits(reading.revisions));
    },
  );
  done();
};
