import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { markdownReport } from '../../render/index.js';
import { forEachRuleset, VerifyRequestSchema, verifyCircuit } from '../../verify/index.js';
import { describe } from '../openapi/describe.js';
import { oneOrSeveral } from '../openapi/one-or-several.js';
import { readBody } from '../read-body.js';

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
        problems: ['too-costly'],
      }),
    },
    (request, reply) => {
      const wanted = readBody(VerifyRequestSchema, request.body);
      const answer = forEachRuleset(wanted, (subject) => verifyCircuit(subject, wanted.sensitivities));
      if (request.answerType !== FORMATS.markdown) return reply.send(answer);
      const reports = 'reports' in answer ? answer.reports : [answer];
      const title = wanted.circuit.title ?? 'Circuit';
      const pages = reports.map((report) => markdownReport(report, { title }));
      return reply.type('text/markdown; charset=utf-8').send(pages.join('\n'));
    },
  );
  done();
};
