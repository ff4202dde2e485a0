import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { HttpProblem } from '../problems/http-problem.js';
import { nowhere } from '../problems/nowhere.js';

interface KnownAddress {
  readonly pattern: RegExp;
  readonly methods: Set<string>;
}

/**
 * Answers what the router does not know: 404 for an address that does not exist, 405 with `Allow` for one that exists
 * without the method (RFC 9110 section 15.5.6), and OPTIONS. It stands before body reading: what has no address has no body.
 */
export const address = fp(
  (app: FastifyInstance, _options: object, done: () => void) => {
    const known = new Map<string, KnownAddress>();

    app.addHook('onRoute', ({ url, method }) => {
      const entry = known.get(url) ?? { pattern: asPattern(url), methods: new Set(['OPTIONS']) };
      for (const name of [method].flat()) entry.methods.add(name);
      known.set(url, entry);
    });

    const answer = (request: FastifyRequest, reply: FastifyReply): FastifyReply => {
      const path = request.url.split('?', 1)[0] ?? '';
      const methods = [...known.values()]
        .filter(({ pattern }) => pattern.test(path))
        .flatMap((one) => [...one.methods]);
      // An address with the right method gets here where a wildcard leads to no file.
      const lost = methods.length === 0 || (request.method !== 'OPTIONS' && methods.includes(request.method));
      if (lost) throw new HttpProblem('not-found', nowhere);
      const allowed = [...new Set(methods)].sort();
      if (request.method === 'OPTIONS') return reply.code(204).header('allow', allowed.join(', ')).send();
      throw new HttpProblem('method-not-allowed', `This address answers to ${allowed.join(', ')} only.`, {
        accepted: allowed,
        headers: { allow: allowed.join(', ') },
      });
    };

    app.addHook('onRequest', async (request, reply) => {
      if (request.is404) await answer(request, reply);
    });
    app.setNotFoundHandler(answer);
    done();
  },
  { name: 'address' },
);

/** `/v1/rulesets/:id` as the expression for the paths it stands for; `*` stands for any rest. */
function asPattern(url: string): RegExp {
  const parts = url.split('/').map((part) => {
    if (part === '*') return '.*';
    return part.startsWith(':') ? '[^/]+' : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  });
  return new RegExp(`^${parts.join('/')}$`);
}
