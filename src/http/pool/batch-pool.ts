import { setImmediate } from 'node:timers/promises';
import type { Piscina } from 'piscina';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { SMALL_WORK } from '../../verify/work/small-work.js';
import { HttpProblem } from '../problems/http-problem.js';
import type { BatchSettings, ItemResult } from './chunk.js';
import { judgeChunk, openChunk } from './judge-chunk.js';
import { problemResult } from './problem-result.js';
import type { Threads } from './threads.js';
import { Watch } from './watch.js';

/** Judges chunks of items on all cores. */
export class BatchPool {
  /** How many chunks are worth having under way at once; each batch has no more, so what waits for threads is bounded. */
  readonly width: number;

  /** @param itemSeconds s that one item may take */
  constructor(
    private readonly threads: Threads,
    private readonly itemSeconds: number,
  ) {
    this.width = 2 * Math.max(1, threads.count);
  }

  /**
   * The results of items, in their order. An item that takes too long, or whose thread dies of it, is ended and answered
   * with a problem; its neighbours are answered as if it had not been there.
   * @throws AbortError as soon as `signal` says so
   */
  async judge(items: readonly RawItem[], settings: BatchSettings, signal: AbortSignal): Promise<ItemResult[]> {
    // What could not even be taken apart is nothing to compute, and starts no thread; without items there is nothing at all.
    if (items.every(({ content }) => content.form === 'refused')) return this.#judgeHere(items, settings, signal);
    const starting = this.threads.start();
    const early = this.threads.running ? [] : await this.#judgeMeanwhile(items, settings, signal);
    const others = items.slice(early.length);
    if (others.length === 0) return early;
    const pool = await starting;
    signal.throwIfAborted();
    const results =
      pool === undefined
        ? await this.#judgeHere(others, settings, signal)
        : await this.#judgeThere(pool, others, settings, signal);
    return [...early, ...results];
  }

  /** The first items while no thread works yet: those that are small, up to the first that is not. */
  async #judgeMeanwhile(
    items: readonly RawItem[],
    settings: BatchSettings,
    signal: AbortSignal,
  ): Promise<ItemResult[]> {
    const results: ItemResult[] = [];
    for (const item of openChunk({ items, settings })) {
      if (this.threads.running || item.work > SMALL_WORK) break;
      results.push(item.judge());
      await othersTurn(signal);
    }
    return results;
  }

  async #judgeThere(
    pool: Piscina,
    items: readonly RawItem[],
    settings: BatchSettings,
    signal: AbortSignal,
  ): Promise<ItemResult[]> {
    const watch = new Watch({ item: this.itemSeconds });
    try {
      const work = { asker: 'chunk', name: 'default', task: { items, settings } } as const;
      return (await this.threads.run(pool, work, watch, signal)) as ItemResult[];
    } catch (error) {
      signal.throwIfAborted();
      const begun = watch.begun;
      const culprit = items[begun - 1];
      if (culprit === undefined) throw error;
      // What the thread had done is lost with it and is done again, the culprit left out.
      const before = await this.judge(items.slice(0, begun - 1), settings, signal);
      const after = await this.judge(items.slice(begun), settings, signal);
      return [...before, this.#ended(culprit, settings, watch.signal.aborted ? undefined : error), ...after];
    } finally {
      watch.stop();
    }
  }

  #ended(item: RawItem, settings: BatchSettings, error: unknown): ItemResult {
    // Read again for its id alone, since what the thread knew of it is lost.
    const [open] = openChunk({ items: [item], settings });
    const id = open?.id ?? null;
    if (error === undefined) {
      const detail = [`The item took more than ${this.itemSeconds} s and was ended.`, ...(open?.costly() ?? [])].join(
        ' ',
      );
      return problemResult(item, id, new HttpProblem('item-timeout', detail), settings);
    }
    const problem = new HttpProblem('internal-error', 'The service failed to answer. The fault is not in the request.');
    return {
      ...problemResult(item, id, problem, settings),
      failure: error instanceof Error ? error.message : 'the thread ended',
    };
  }

  async #judgeHere(items: readonly RawItem[], settings: BatchSettings, signal: AbortSignal): Promise<ItemResult[]> {
    const results: ItemResult[] = [];
    for (const result of judgeChunk({ items, settings })) {
      results.push(result);
      await othersTurn(signal);
    }
    return results;
  }
}

/** Others have a turn between two items. */
async function othersTurn(signal: AbortSignal): Promise<void> {
  await setImmediate();
  signal.throwIfAborted();
}
