import type { FastifyReply, FastifyRequest } from 'fastify';
import { refuseCostly } from '../../verify/work/refuse-costly.js';
import { SMALL_WORK } from '../../verify/work/small-work.js';
import { type CallName, calls } from './calls.js';

/**
 * Answers one call, unless it is too much work: where it is small at once, else on a thread, so that others are answered meanwhile. The answer is
 * the same either way.
 * @throws HttpProblem; CircuitFault
 */
export async function answerCall(request: FastifyRequest, reply: FastifyReply, name: CallName): Promise<FastifyReply> {
  const { body, answerType: type, server } = request;
  const question = calls[name](body);
  refuseCostly(question);
  reply.type(`${type}; charset=utf-8`);
  if (question.work <= SMALL_WORK) return reply.send(question.answer(type));
  try {
    return await reply.send(await server.largeCalls.answer({ name, body, type, question }, reply.raw));
  } catch (error) {
    if (!reply.raw.closed) throw error;
    request.log.info('the caller hung up: the work was ended');
    return reply.hijack();
  }
}
