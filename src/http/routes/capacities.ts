import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { capacities } from '../../circuit/capacities.js';
import { tableCapacities } from '../../verify/cells/table-capacities.js';
import { stockCapacities } from '../../verify/stock/stock-capacities.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { httpCapacities } from '../http-capacities.js';
import { describe } from '../openapi/describe.js';

const list = { ...httpCapacities, ...capacities, ...tableCapacities, ...stockCapacities };
const CapacitiesSchema = Type.Object(
  Object.fromEntries(Object.keys(list).map((name) => [name, Type.Integer({ minimum: 1 })])),
  { additionalProperties: true },
);

/** How much one request may hold. */
export const capacityRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/v1/capacities',
    {
      schema: describe({
        operationId: 'getCapacities',
        tag: 'Catalogue',
        summary: 'The largest request',
        description:
          'Bounds on the body, on a circuit and on what may be computed from it. Beyond them a request is refused.',
        answer: { description: 'The bounds by name.', schema: CapacitiesSchema },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );
  done();
};
