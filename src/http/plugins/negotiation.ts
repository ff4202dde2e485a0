import accepts from '@fastify/accepts';
import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { HttpProblem, type ProblemError } from '../problems/http-problem.js';
import { queryProblem } from '../problems/query-problem.js';
import { unknownFormat } from '../problems/unknown-format.js';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Media types that the route can answer in, the default one first. Not stated: JSON only. */
    produces?: readonly string[];
    /** Media types that can also be asked for by a short name, `?format=…`, for clients that cannot set headers. */
    formats?: Readonly<Record<string, string>>;
    /** Further query parameters that the route reads itself. */
    parameters?: readonly string[];
    /** What is wrong with the values of those, so that it is named beside parameters that nobody reads. */
    parameterFaults?: (query: Readonly<Record<string, unknown>>) => readonly ProblemError[];
    /** True where the route judges its whole query by itself, an unknown `format` included, to name all its faults at once. */
    ownQuery?: boolean;
  }
  interface FastifyRequest {
    /** The media type to answer in: of `produces`, as the caller prefers. */
    answerType: string;
  }
}

const JSON_ONLY: readonly string[] = ['application/json'];

/**
 * Before a body is read: the answer must be possible in a form that the caller accepts (RFC 9110 section 12.5.1), and
 * each query parameter must be one that the route reads. A parameter that nobody reads is a misspelling that would
 * otherwise give the right answer to another question. `format` wins over `Accept`.
 */
export const negotiation = fp(
  async (app: FastifyInstance) => {
    await app.register(accepts);
    app.decorateRequest('answerType', '');
    app.addHook('onRequest', (request, _reply, next) => {
      const { config } = request.routeOptions;
      const { produces = JSON_ONLY, formats, parameters = [], ownQuery = false } = config;
      const query = request.query as Readonly<Record<string, unknown>>;
      const { format } = query;
      const known = formats === undefined ? parameters : ['format', ...parameters];
      const wanted = format === undefined ? request.accepts().type([...produces]) : mediaTypeOf(format, formats ?? {});
      const isUnknown = format !== undefined && formats !== undefined && wanted === undefined;
      const unknown = Object.keys(query).filter((name) => !known.includes(name));
      const faults = ownQuery
        ? []
        : [
            ...unknownParameters(unknown.sort(), known),
            ...(isUnknown ? [unknownFormat(format, formats)] : []),
            ...(config.parameterFaults?.(query) ?? []),
          ];
      if (faults.length > 0) {
        next(queryProblem(faults));
        return;
      }
      if (isUnknown) {
        // The route has its own reading of the query and refuses this with the rest.
        next();
        return;
      }
      if (typeof wanted !== 'string') {
        next(notAcceptable(produces));
        return;
      }
      request.answerType = wanted;
      next();
    });
  },
  { name: 'negotiation' },
);

function mediaTypeOf(format: unknown, formats: Readonly<Record<string, string>>): string | undefined {
  return typeof format === 'string' && Object.hasOwn(formats, format) ? formats[format] : undefined;
}

function notAcceptable(produces: readonly string[]): HttpProblem {
  return new HttpProblem('not-acceptable', `This call answers in ${produces.join(' or ')} only.`, {
    accepted: produces,
  });
}

function unknownParameters(names: readonly string[], known: readonly string[]): ProblemError[] {
  const accepted = known.length === 0 ? 'no query parameters' : known.join(', ');
  return names.map((parameter) => ({
    parameter,
    detail: `${JSON.stringify(parameter)} is not a parameter of this call.`,
    code: 'unknown-parameter',
    accepted,
  }));
}
