import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { cautions } from '../../verify/cautions.js';

/** Where the manual's page draws itself; in a browser without scripts it stays empty. */
const PLACE = '<div id="swagger-ui"></div>';

/** The cautions are our own text, without characters that HTML would read. */
const WITHOUT_SCRIPTS = `<noscript>
<h1>Risefall</h1>
<p>The manual draws itself with scripts; the same for programs is <a href="/openapi.json">/openapi.json</a>.</p>
<ul>
${cautions.map(({ text }) => `<li>${text}</li>`).join('\n')}
</ul>
</noscript>`;

/** The manual for people at /docs, served from this process alone: an event's network may have no way out. */
export const docs = fp(
  async (app: FastifyInstance) => {
    // In a scope of its own, so that the hook sees nothing but the manual's files.
    await app.register(async (manual) => {
      manual.addHook('onSend', async (_request, _reply, payload) =>
        typeof payload === 'string' ? payload.replace(PLACE, `${WITHOUT_SCRIPTS}\n${PLACE}`) : payload,
      );
      await manual.register(swaggerUi, {
        routePrefix: '/docs',
        theme: { title: 'Risefall: the manual' },
        uiConfig: { deepLinking: true, validatorUrl: null, docExpansion: 'list' },
        logLevel: 'warn',
      });
    });
  },
  { name: 'docs', dependencies: ['openapi'] },
);
