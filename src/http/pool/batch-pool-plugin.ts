import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { httpCapacities } from '../http-capacities.js';
import { BatchPool, type BatchPoolOptions } from './batch-pool.js';
import { BatchDesk } from './batch-desk.js';

declare module 'fastify' {
  interface FastifyInstance {
    batchPool: BatchPool;
    batchDesk: BatchDesk;
  }
}

export type BatchOptions = Partial<Pick<BatchPoolOptions, 'threads' | 'itemSeconds' | 'workerFile'>> & {
  /** Batches worked on at once. */
  readonly batches?: number;
};

/** The threads that batches share, and the desk that lets batches in. Both end with the service. */
export const batchPool = fp<BatchOptions>(
  (app: FastifyInstance, { batches = httpCapacities.batches, ...options }, done) => {
    const pool = new BatchPool({
      itemSeconds: httpCapacities.batchItemSeconds,
      batches,
      ...options,
      onFallback: (reason) => app.log.warn({ err: reason }, 'no worker threads: batches run in one thread'),
    });
    const desk = new BatchDesk(batches);
    app.decorate('batchPool', pool);
    app.decorate('batchDesk', desk);
    app.addHook('onClose', async () => {
      await desk.close();
      await pool.close();
    });
    done();
  },
  { name: 'batch-pool' },
);
