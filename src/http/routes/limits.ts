import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerCall } from '../calls/answer-call.js';
import { describe, LARGE_CALL } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';

/** The bounds on part values alone. */
export const limitRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/limits',
    {
      schema: describe({
        operationId: 'computeLimits',
        tag: 'Verification',
        summary: 'Every bound on every part',
        description:
          'How large or small each part may be with all other parts at their worst, which bound is the tightest, how much margin is left, and the preferred values inside. With `stock`: which resistors at hand, single or two in series or parallel, can stand in the place of each resistor. Each such choice is put into the circuit and judged by every rule; derating is taken from the part replaced, and what the stock does not state (a voltage rating, an overload rating) stays open.',
        body: Type.Ref('LimitsRequest'),
        answer: { description: 'The limits, or a list of them by ruleset.', schema: oneOrSeveral('LimitsAnswer') },
        problems: LARGE_CALL,
      }),
    },
    (request, reply) => answerCall(request, reply, 'limits'),
  );
  done();
};
