import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { httpCapacities } from '../http-capacities.js';
import { BatchPool } from './batch-pool.js';
import { Desk } from './desk.js';
import { LargeCalls } from './large-calls.js';
import { Threads, type ThreadsOptions } from './threads.js';

declare module 'fastify' {
  interface FastifyInstance {
    threads: Threads;
    batchPool: BatchPool;
    batchDesk: Desk;
    largeCalls: LargeCalls;
  }
}

export interface PoolOptions extends Pick<ThreadsOptions, 'threads' | 'workerFile'> {
  /** s that one item of a batch may take. */
  readonly itemSeconds?: number;
  /** s that one large call may take. */
  readonly callSeconds?: number;
  /** s that one large call may wait until it is begun. */
  readonly callWaitSeconds?: number;
  /** Batches worked on at once. */
  readonly batches?: number;
  /** Large calls let in at once, for each thread. */
  readonly callsPerThread?: number;
}

/** The threads that batches and large calls share, and the desks that let both in. All end with the service. */
export const pool = fp<PoolOptions>(
  (app: FastifyInstance, options, done) => {
    const {
      itemSeconds = httpCapacities.batchItemSeconds,
      callSeconds = httpCapacities.largeCallSeconds,
      callWaitSeconds = httpCapacities.largeCallWaitSeconds,
      batches = httpCapacities.batches,
      callsPerThread = httpCapacities.largeCallsPerThread,
      ...own
    } = options;
    const onFallback = (reason: unknown) => app.log.warn({ err: reason }, 'no worker threads: all runs in one thread');
    const threads = new Threads({ ...own, onFallback });
    const batchDesk = new Desk(batches, 'batches');
    const callDesk = new Desk(callsPerThread * threads.count, 'large calls');
    app.decorate('threads', threads);
    app.decorate('batchPool', new BatchPool(threads, itemSeconds));
    app.decorate('batchDesk', batchDesk);
    const seconds = { seconds: callSeconds, waitSeconds: callWaitSeconds };
    app.decorate('largeCalls', new LargeCalls({ threads, desk: callDesk, ...seconds }));
    app.addHook('onClose', async () => {
      await Promise.all([batchDesk.close(), callDesk.close()]);
      await threads.close();
    });
    done();
  },
  { name: 'pool' },
);
