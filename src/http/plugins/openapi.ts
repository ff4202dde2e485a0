import swagger from '@fastify/swagger';
import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { componentSchemas } from '../openapi/component-schemas.js';
import { openApiInfo } from '../openapi/info.js';
import { withExamples } from '../openapi/with-examples.js';

/** Collects every route registered after it into one OpenAPI 3.1 document; named schemas become components. */
export const openapi = fp(
  async (app: FastifyInstance) => {
    await app.register(swagger, {
      openapi: openApiInfo,
      refResolver: {
        buildLocalReference: (json, _baseUri, _fragment, index) =>
          typeof json.$id === 'string' ? json.$id : `unnamed-${index}`,
      },
      transformObject: (document) =>
        'openapiObject' in document ? withExamples(document.openapiObject) : document.swaggerObject,
    });
    for (const schema of componentSchemas) app.addSchema(schema);
  },
  { name: 'openapi' },
);
