import type { FastifyBaseLogger } from 'fastify';
import type { RawItem } from '../../verify/batch/raw-item.js';
import type { BatchPool } from '../pool/batch-pool.js';
import type { BatchSettings, ItemResult } from '../pool/chunk.js';
import { problemResult } from '../pool/problem-result.js';
import { asProblem } from '../problems/as-problem.js';
import { HttpProblem } from '../problems/http-problem.js';
import type { ChunkPace } from './chunk-pace.js';
import { inOrder } from './in-order.js';

interface Means {
  readonly pool: BatchPool;
  readonly signal: AbortSignal;
  /** Told how long each chunk took. */
  readonly pace: ChunkPace;
  readonly log: FastifyBaseLogger;
}

/**
 * The results of all items in their order. Where the body breaks off, what had arrived is answered, and then what is
 * wrong, as one further item: the answer has begun, so no status can say it.
 */
export async function* resultsOf(
  chunks: AsyncIterable<RawItem[]>,
  settings: BatchSettings,
  { pool, signal, pace, log }: Means,
): AsyncGenerator<ItemResult[]> {
  let count = 0;
  const judge = async (items: RawItem[]): Promise<ItemResult[]> => {
    const start = performance.now();
    const results = await pool.judge(items, settings, signal);
    pace.took(items.length, performance.now() - start);
    return results;
  };
  try {
    for await (const results of inOrder(chunks, judge, pool.width)) {
      for (const { index, failure } of results) {
        if (failure !== undefined) log.error({ index, failure }, 'an item of a batch failed');
      }
      count += results.length;
      yield results;
    }
  } catch (error) {
    signal.throwIfAborted();
    if (!(error instanceof HttpProblem)) throw error;
    const item: RawItem = { index: count, content: { form: 'refused', why: 'unclosed-list' } };
    yield [problemResult(item, null, asProblem(error), settings)];
  }
}
