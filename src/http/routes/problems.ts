import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { describe } from '../openapi/describe.js';
import { allCodes } from '../problems/all-codes.js';
import { HttpProblem } from '../problems/http-problem.js';
import { problemPage } from '../problems/problem-page.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';

const list = { codes: allCodes };

/** Pages behind every problem's `type` and every fault's `code`. */
export const problemRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/problems',
    {
      schema: describe({
        operationId: 'listProblems',
        tag: 'Problems',
        summary: 'Every problem and fault code',
        description: 'Codes are stable and never reused.',
        answer: {
          description: 'All codes.',
          schema: Type.Object({ codes: Type.Array(Type.Ref('ProblemCode')) }, { additionalProperties: true }),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );

  app.get<{ Params: { code: string } }>(
    '/problems/:code',
    {
      config: { produces: ['application/json', 'text/html'] },
      schema: describe({
        operationId: 'getProblem',
        tag: 'Problems',
        summary: 'What a code means',
        description: 'As JSON, or as a page where the caller prefers HTML.',
        params: Type.Object({ code: Type.String() }),
        answer: {
          description: 'The code’s title and explanation.',
          content: { 'application/json': Type.Ref('ProblemCode'), 'text/html': Type.String() },
        },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) => {
      const page = allCodes.find(({ code }) => code === request.params.code);
      if (page === undefined) throw new HttpProblem('not-found', 'No problem has this code; GET /problems lists all.');
      if (request.answerType === 'text/html') return reply.type('text/html; charset=utf-8').send(problemPage(page));
      return sendCatalogue(request, reply, page);
    },
  );
  done();
};
