import type { FastifyReply, FastifyRequest } from 'fastify';
import { canonicalJson } from '../../verify/canonical-json.js';
import { ENGINE_VERSION } from '../../verify/engine-version.js';
import { entityTag, tagMatches } from './entity-tag.js';

/** Catalogue answers never change while the process runs, so each address needs its tag computed once. */
const tags = new WeakMap<object, Map<string, string>>();

/**
 * Answers a catalogue resource with a strong ETag (RFC 9110 section 8.8.3) made from the address, the engine's version
 * and the content, or with 304 where the caller already has it.
 */
export function sendCatalogue(request: FastifyRequest, reply: FastifyReply, value: object | string): FastifyReply {
  const tag = tagOf(request, value);
  reply.headers({ etag: tag, 'cache-control': 'public, max-age=300' });
  if (tagMatches(request.headers['if-none-match'], tag)) return reply.code(304).send();
  return reply
    .type(typeof value === 'string' ? `${request.answerType}; charset=utf-8` : request.answerType)
    .send(value);
}

function tagOf(request: FastifyRequest, value: object | string): string {
  const known = tags.get(request.server.server) ?? new Map<string, string>();
  tags.set(request.server.server, known);
  // The route and its parameters, not the address as written: percent-encoding gives one resource endless spellings.
  const { routeOptions, params, answerType } = request;
  const path = canonicalJson({ route: routeOptions.url, parameters: params, type: answerType });
  let tag = known.get(path);
  if (tag === undefined) {
    tag = entityTag({ engine: ENGINE_VERSION, path, value });
    known.set(path, tag);
  }
  return tag;
}
