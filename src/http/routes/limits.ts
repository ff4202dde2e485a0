import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { findLimits } from '../../verify/find-limits.js';
import { forEachRuleset } from '../../verify/for-each-ruleset.js';
import { LimitsRequestSchema } from '../../verify/requests.js';
import { describe } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';
import { readBody } from '../read-body.js';

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
        problems: ['too-costly'],
      }),
    },
    (request, reply) => {
      const wanted = readBody(LimitsRequestSchema, request.body);
      return reply.send(forEachRuleset(wanted, (subject) => findLimits(subject, wanted.stock)));
    },
  );
  done();
};
