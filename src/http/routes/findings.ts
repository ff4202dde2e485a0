import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { findBreaches } from '../../verify/find-breaches.js';
import { forEachRuleset } from '../../verify/for-each-ruleset.js';
import { JudgeRequestSchema } from '../../verify/requests.js';
import { describe } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';
import { readBody } from '../read-body.js';

/** The rules alone. */
export const findingRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/findings',
    {
      schema: describe({
        operationId: 'findRuleBreaches',
        tag: 'Verification',
        summary: 'Every rule judged',
        description:
          'One finding for each rule: met, violated, undetermined (and which field would settle it) or not applicable, with evidence, remedy and what to look at on the car.',
        body: Type.Ref('JudgeRequest'),
        answer: { description: 'The findings, or a list of them by ruleset.', schema: oneOrSeveral('FindingsAnswer') },
        problems: ['too-costly'],
      }),
    },
    (request, reply) => reply.send(forEachRuleset(readBody(JudgeRequestSchema, request.body), findBreaches)),
  );
  done();
};
