import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { readJson } from '../json/read-json.js';
import { HttpProblem } from '../problems/http-problem.js';

/**
 * Bodies are JSON in UTF-8 and nothing else. The framework's own JSON reader goes, since it lets equal keys through
 * and names no place; its schema validation goes too, since it stops at the schema while `readRequest` reports
 * schema faults and faults of the circuit together.
 */
export const body = fp(
  (app: FastifyInstance, _options: object, done: () => void) => {
    app.removeAllContentTypeParsers();
    app.addContentTypeParser('application/json', { parseAs: 'buffer' }, (request, bytes, parsed) => {
      try {
        refuseEncoding(request.headers['content-encoding'], request.headers['content-type']);
        if (bytes.length === 0) throw new HttpProblem('empty-body', 'The body is empty.');
        parsed(null, readJson(bytes as Buffer));
      } catch (error) {
        parsed(error as Error);
      }
    });
    app.addHook('preValidation', (request, _reply, next) => {
      const missing = request.method === 'POST' && request.body === undefined;
      next(missing ? new HttpProblem('empty-body', 'The request has no body.') : undefined);
    });
    app.setValidatorCompiler(() => () => true);
    done();
  },
  { name: 'body' },
);

function refuseEncoding(encoding: string | undefined, type = ''): void {
  const charset = /;\s*charset="?([^;"\s]+)/i.exec(type)?.[1]?.toLowerCase() ?? 'utf-8';
  const plain = encoding === undefined || encoding.toLowerCase() === 'identity';
  if (plain && charset === 'utf-8') return;
  const what = plain ? `in ${charset}` : `compressed (${encoding})`;
  throw new HttpProblem('unsupported-media-type', `The body is ${what}; send it in UTF-8 and uncompressed.`, {
    accepted: ['application/json'],
    headers: { 'accept-post': 'application/json', 'accept-encoding': 'identity' },
  });
}
