import Fastify, { type FastifyInstance } from 'fastify';
import { answerClientError } from './client-error.js';
import type { LogLevel } from './configuration.js';
import { httpCapacities } from './http-capacities.js';
import { address } from './plugins/address.js';
import { answers } from './plugins/answers.js';
import { body } from './plugins/body.js';
import { commonHeaders } from './plugins/common-headers.js';
import { docs } from './plugins/docs.js';
import { openapi } from './plugins/openapi.js';
import { problems } from './plugins/problems.js';
import { pool, type PoolOptions } from './pool/pool-plugin.js';
import { asProblem } from './problems/as-problem.js';
import { sendProblem } from './problems/send-problem.js';
import { requestId } from './request-id.js';
import { api } from './routes/index.js';

export interface AppOptions {
  /** Of the log on standard output. Default `silent`. */
  readonly logLevel?: LogLevel;
  /** Threads, and time and number of batches and large calls; not stated: as published. */
  readonly work?: PoolOptions;
}

/**
 * The whole service, ready to listen or to be called in process. Every option of the framework stands here, so that
 * tests, the export of the OpenAPI document and production run the same service.
 */
export async function buildApp({ logLevel = 'silent', work = {} }: AppOptions = {}): Promise<FastifyInstance> {
  const app = Fastify({
    logger: logLevel === 'silent' ? false : { level: logLevel },
    genReqId: requestId,
    bodyLimit: httpCapacities.bodyBytes,
    // A whole request has to arrive within this time, so that slow senders hold no connection for ever.
    requestTimeout: 30_000,
    // While the process stops, what still arrives on open connections is answered; /readyz turns new work away.
    return503OnClosing: false,
    routerOptions: { maxParamLength: 128 },
    clientErrorHandler: answerClientError,
    frameworkErrors: (error, request, reply) => {
      void sendProblem(asProblem(error), request, reply);
    },
  });

  // First what every answer needs, problems included; then what decides before a body is read; then the body.
  await app.register(commonHeaders);
  await app.register(problems);
  await app.register(answers);
  await app.register(address);
  await app.register(body);
  // Before the routes, since it collects them as they are registered.
  await app.register(openapi);
  // The manual has static files of its own, so the rules for API calls (Accept, query) hold only inside `api`.
  await app.register(docs);
  await app.register(pool, work);
  await app.register(api);
  await app.ready();
  return app;
}
