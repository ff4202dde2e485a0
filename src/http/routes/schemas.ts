import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { bundleSchema } from '../catalogue/bundle-schema.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { componentSchemas } from '../openapi/component-schemas.js';
import { contentOf } from '../openapi/content-of.js';
import { describe } from '../openapi/describe.js';
import { HttpProblem } from '../problems/http-problem.js';

const names = componentSchemas.map(({ $id }) => $id ?? '').sort();
const bundles = new Map(names.map((name) => [name, bundleSchema(name, componentSchemas)]));

const SCHEMA_TYPES = ['application/json', 'application/schema+json'];

/** The shapes of requests and answers as JSON Schema, for editors and other programs. */
export const schemaRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/v1/schemas',
    {
      schema: describe({
        operationId: 'listSchemas',
        tag: 'Catalogue',
        summary: 'The names of all schemas',
        description: 'Each is a part of the OpenAPI document that can also be had by itself.',
        answer: {
          description: 'The names.',
          schema: Type.Object({ schemas: Type.Array(Type.String()) }, { additionalProperties: true }),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, { schemas: names }),
  );

  app.get<{ Params: { name: string } }>(
    '/v1/schemas/:name',
    {
      config: { produces: SCHEMA_TYPES },
      schema: describe({
        operationId: 'getSchema',
        tag: 'Catalogue',
        summary: 'One schema by itself',
        description:
          'JSON Schema 2020-12, complete: what it refers to stands in `$defs`. `Circuit` is the one to give an editor.',
        params: Type.Object({ name: Type.String() }),
        answer: {
          description: 'The schema.',
          content: contentOf(SCHEMA_TYPES, Type.Object({}, { additionalProperties: true })),
        },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) => {
      const bundle = bundles.get(request.params.name);
      if (bundle === undefined)
        throw new HttpProblem('not-found', 'No schema has this name; GET /v1/schemas lists all.');
      return sendCatalogue(request, reply, bundle);
    },
  );
  done();
};
