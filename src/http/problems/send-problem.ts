import type { FastifyReply, FastifyRequest } from 'fastify';
import { serialise } from '../json/serialise.js';
import type { HttpProblem } from './http-problem.js';
import { problemDocument } from './problem-document.js';

/** Answers with a problem document: status, headers and body of RFC 9457. */
export function sendProblem(problem: HttpProblem, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  return reply
    .code(problem.status)
    .headers({ ...problem.options.headers, 'cache-control': 'no-store', 'x-request-id': request.id })
    .type('application/problem+json')
    .send(serialise(problemDocument(problem, request.id)));
}
