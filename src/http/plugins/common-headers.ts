import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';

/** RFC 8288, relations of RFC 8631: where a program finds the description and a person the manual. */
const LINK = [
  '</openapi.json>; rel="service-desc"; type="application/vnd.oai.openapi+json"',
  '</docs>; rel="service-doc"; type="text/html"',
  '</healthz>; rel="status"',
].join(', ');

/** Headers that every answer carries, problems included. */
export const commonHeaders = fp(
  (app: FastifyInstance, _options: object, done: () => void) => {
    app.addHook('onRequest', (request, reply, next) => {
      reply.headers({
        'x-request-id': request.id,
        'x-content-type-options': 'nosniff',
        link: LINK,
        vary: 'Accept',
      });
      next();
    });
    done();
  },
  { name: 'common-headers' },
);
