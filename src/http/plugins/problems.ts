import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { asProblem } from '../problems/as-problem.js';
import { sendProblem } from '../problems/send-problem.js';

/** Every error of every route leaves as `application/problem+json`; mistakes of our own are logged as errors. */
export const problems = fp(
  (app: FastifyInstance, _options: object, done: () => void) => {
    app.setErrorHandler((error, request, reply) => {
      const problem = asProblem(error);
      if (problem.code === 'internal-error') request.log.error({ err: error }, 'request failed');
      else request.log.info({ problem: problem.code }, problem.detail);
      return sendProblem(problem, request, reply);
    });
    done();
  },
  { name: 'problems' },
);
