import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerCall } from '../calls/answer-call.js';
import { describe, LARGE_CALL } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';

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
        problems: LARGE_CALL,
      }),
    },
    (request, reply) => answerCall(request, reply, 'findings'),
  );
  done();
};
