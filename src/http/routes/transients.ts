import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { answerCall } from '../calls/answer-call.js';
import { describe, LARGE_CALL } from '../openapi/describe.js';

/** Voltages, currents, powers and temperatures over time. */
export const transientRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/transients',
    {
      schema: describe({
        operationId: 'computeTransients',
        tag: 'Verification',
        summary: 'Signals over time',
        description:
          'The circuit run through a sequence of switching steps at nominal values, solved exactly between them. A value at a switching instant is the one just after it; where there is no value it is null, with the reason.',
        body: Type.Ref('TransientsRequest'),
        answer: { description: 'The signals at the wanted instants.', schema: Type.Ref('TransientsAnswer') },
        problems: LARGE_CALL,
      }),
    },
    (request, reply) => answerCall(request, reply, 'transients'),
  );
  done();
};
