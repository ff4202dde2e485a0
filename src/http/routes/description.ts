import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { contentOf } from '../openapi/content-of.js';
import { describe } from '../openapi/describe.js';

const JSON_TYPES = ['application/json', 'application/vnd.oai.openapi+json'];
const YAML_TYPES = ['application/yaml', 'text/yaml', 'application/vnd.oai.openapi'];

/** The service's own description, for programs. */
export const descriptionRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/openapi.json',
    {
      config: { produces: JSON_TYPES },
      schema: describe({
        operationId: 'getOpenApiJson',
        tag: 'Operations',
        summary: 'This description as JSON',
        description: 'The OpenAPI 3.1 document of the service as it runs.',
        answer: {
          description: 'The document.',
          content: contentOf(JSON_TYPES, Type.Object({}, { additionalProperties: true })),
        },
      }),
    },
    (request, reply) => reply.type(request.answerType).send(JSON.stringify(app.swagger())),
  );

  app.get(
    '/openapi.yaml',
    {
      config: { produces: YAML_TYPES },
      schema: describe({
        operationId: 'getOpenApiYaml',
        tag: 'Operations',
        summary: 'This description as YAML',
        description: 'The same document in YAML.',
        answer: { description: 'The document.', content: contentOf(YAML_TYPES, Type.String()) },
      }),
    },
    (request, reply) => reply.type(request.answerType).send(app.swagger({ yaml: true })),
  );
  done();
};
