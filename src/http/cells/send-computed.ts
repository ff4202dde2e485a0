import type { FastifyReply, FastifyRequest } from 'fastify';
import { ENGINE_VERSION } from '../../verify/engine-version.js';
import { entityTag, tagMatches } from '../catalogue/entity-tag.js';

/** s for which an answer may be kept: the same question has the same answer until the engine changes. */
const KEPT_FOR = 86_400;

/**
 * Answers a pure question. The entity tag is made from the question in canonical form, the engine's version and the media
 * type, so that who already has the answer is told so (304) before anything is computed.
 * @param question everything that the answer depends on, in SI, however it was written
 */
export function sendComputed(
  request: FastifyRequest,
  reply: FastifyReply,
  question: object,
  compute: () => string | object,
): FastifyReply {
  const { answerType, routeOptions } = request;
  const tag = entityTag({ engine: ENGINE_VERSION, route: routeOptions.url, type: answerType, question });
  const headers = { etag: tag, 'cache-control': `public, max-age=${KEPT_FOR}` };
  if (tagMatches(request.headers['if-none-match'], tag)) return reply.code(304).headers(headers).send();
  const answer = compute();
  return reply
    .headers(headers)
    .type(typeof answer === 'string' ? `${answerType}; charset=utf-8` : answerType)
    .send(answer);
}
