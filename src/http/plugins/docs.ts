import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';

/** The manual for people at /docs, served from this process alone: an event's network may have no way out. */
export const docs = fp(
  async (app: FastifyInstance) => {
    await app.register(swaggerUi, {
      routePrefix: '/docs',
      theme: { title: 'Risefall: the manual' },
      uiConfig: { deepLinking: true, validatorUrl: null, docExpansion: 'list' },
      logLevel: 'warn',
    });
  },
  { name: 'docs', dependencies: ['openapi'] },
);
