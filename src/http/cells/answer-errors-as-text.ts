import type { FastifyReply, FastifyRequest } from 'fastify';
import { asProblem } from '../problems/as-problem.js';
import type { HttpProblem } from '../problems/http-problem.js';

/**
 * A route's error handler: with `onError=text` the caller's own mistakes become 200 with one line `ERROR: …`, since a cell
 * shows nothing of an answer with another status. What is no mistake in the address, or is ours, stays what it is.
 */
export function answerErrorsAsText(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
  const problem = asProblem(error);
  const { onError } = request.query as { readonly onError?: unknown };
  if (onError !== 'text' || problem.status >= 500 || problem.code === 'not-acceptable') throw error;
  void reply
    .code(200)
    .header('cache-control', 'no-store')
    .type('text/plain; charset=utf-8')
    .send(`ERROR: ${sentencesOf(problem)}`);
}

function sentencesOf({ detail, options }: HttpProblem): string {
  return options.errors?.map((error) => `${error.parameter ?? ''}: ${error.detail}`).join(' ') ?? detail;
}
