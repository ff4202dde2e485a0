import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerCall } from '../calls/answer-call.js';
import { describe, LARGE_CALL } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';

const FORMATS = { json: 'application/json', markdown: 'text/markdown' } as const;

/** Everything about one circuit. */
export const verifyRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/verify',
    {
      config: { produces: Object.values(FORMATS), formats: FORMATS },
      schema: describe({
        operationId: 'verifyCircuit',
        tag: 'Verification',
        summary: 'Everything about one circuit',
        description:
          'The verdict, a finding for every rule, the figures of rise and fall, every limit with its margin, what to measure on the car, and what the result was made from; as JSON or as a report to read. Findings are results, not errors: a circuit that breaks every rule is answered with 200.',
        body: Type.Ref('VerifyRequest'),
        formats: Object.keys(FORMATS),
        answer: {
          description: 'The report, or one report for each ruleset.',
          content: { 'application/json': oneOrSeveral('Report'), 'text/markdown': Type.String() },
        },
        problems: LARGE_CALL,
      }),
    },
    (request, reply) => answerCall(request, reply, 'verify'),
  );
  done();
};
