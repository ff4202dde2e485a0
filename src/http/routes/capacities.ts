import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { capacityTable } from '../../circuit/capacities.js';
import { valuesOf } from '../../circuit/capacity-table.js';
import { tableCapacityTable } from '../../verify/cells/table-capacities.js';
import { stockCapacityTable } from '../../verify/stock/stock-capacities.js';
import { workCapacityTable } from '../../verify/work/work-capacities.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { httpCapacityTable } from '../http-capacities.js';
import { describe } from '../openapi/describe.js';

const table = {
  ...httpCapacityTable,
  ...capacityTable,
  ...tableCapacityTable,
  ...stockCapacityTable,
  ...workCapacityTable,
};
const list = valuesOf(table);
const CapacitiesSchema = Type.Object(
  Object.fromEntries(
    Object.entries(table).map(([name, [, description]]) => [name, Type.Integer({ minimum: 1, description })]),
  ),
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
          'Bounds on the body, on a circuit and on what may be computed from it. Beyond them a request is refused. `expectedWork` bounds what is expected of a request before any of it is done, in states solved of an ordinary car: an estimate from the counts of its parts, within a factor of three as a rule. What is let in and proves to be more is ended all the same, by a count of what is really solved and after `largeCallSeconds` (in a batch `batchItemSeconds`). A call that no thread is free for within `largeCallWaitSeconds` is answered with 503 and not begun.',
        answer: { description: 'The bounds by name.', schema: CapacitiesSchema },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );
  done();
};
