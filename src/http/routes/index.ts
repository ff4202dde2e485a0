import type { FastifyInstance } from 'fastify';
import { negotiation } from '../plugins/negotiation.js';
import { batchRoutes } from './batch.js';
import { capacityRoutes } from './capacities.js';
import { circuitRoutes } from './circuits.js';
import { compareRoutes } from './compare.js';
import { descriptionRoutes } from './description.js';
import { exampleRoutes } from './examples.js';
import { findingRoutes } from './findings.js';
import { healthRoutes } from './health.js';
import { limitCellRoutes } from './limit-cells.js';
import { limitTableRoutes } from './limit-tables.js';
import { limitRoutes } from './limits.js';
import { problemRoutes } from './problems.js';
import { rootRoutes } from './root.js';
import { rowRoutes } from './rows.js';
import { ruleRoutes } from './rules.js';
import { rulesetRoutes } from './rulesets.js';
import { schemaRoutes } from './schemas.js';
import { transientRoutes } from './transients.js';
import { verifyRoutes } from './verify.js';

/** Every route of the API, in the order in which the OpenAPI document shows them. */
export async function api(app: FastifyInstance): Promise<void> {
  // Only here: the manual's static files have rules of their own for Accept and the query.
  await app.register(negotiation);

  await app.register(verifyRoutes);
  await app.register(findingRoutes);
  await app.register(limitRoutes);
  await app.register(limitCellRoutes);
  await app.register(limitTableRoutes);
  await app.register(transientRoutes);
  await app.register(batchRoutes);
  await app.register(compareRoutes);
  await app.register(circuitRoutes);
  await app.register(rowRoutes);

  await app.register(rulesetRoutes);
  await app.register(ruleRoutes);
  await app.register(exampleRoutes);
  await app.register(capacityRoutes);
  await app.register(schemaRoutes);

  await app.register(problemRoutes);
  await app.register(healthRoutes);
  await app.register(descriptionRoutes);
  await app.register(rootRoutes);
}
