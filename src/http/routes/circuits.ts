import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { checkCircuit } from '../../verify/check-circuit.js';
import { CheckRequestSchema } from '../../verify/requests.js';
import { describe } from '../openapi/describe.js';
import { readBody } from '../read-body.js';

/** A circuit read and answered as it was understood. */
export const circuitRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.post(
    '/v1/circuits/check',
    {
      schema: describe({
        operationId: 'checkCircuit',
        tag: 'Circuits',
        summary: 'Is the description what was meant?',
        description:
          'Reads the circuit, finds every fault of it, and answers it in plain SI with all defaults filled in and elements in order of id. No rule is judged.',
        body: Type.Ref('CheckRequest'),
        answer: { description: 'The circuit as understood.', schema: Type.Ref('CheckAnswer') },
      }),
    },
    (request, reply) => reply.send(checkCircuit(readBody(CheckRequestSchema, request.body).circuit)),
  );
  done();
};
