import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import { Piscina } from 'piscina';
import { HttpProblem } from '../problems/http-problem.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import type { BatchSettings, Chunk, ItemResult } from './chunk.js';
import { judgeChunk } from './judge-chunk.js';
import { problemResult } from './problem-result.js';
import { Watch } from './watch.js';

export interface BatchPoolOptions {
  /** Threads; 0: everything runs in the calling one, and no item can be ended. Default: one a core. */
  readonly threads?: number;
  /** s that one item may take. */
  readonly itemSeconds: number;
  /** Batches at once; each has no more than `width` chunks under way, so the queue never holds more. */
  readonly batches: number;
  /** What the threads run; default: our own worker. */
  readonly workerFile?: URL;
  /** Told why there are no threads where there should be some. */
  readonly onFallback?: (reason: unknown) => void;
}

// In the source tree the worker is TypeScript, which a thread only reads with the loader's help.
const IN_SOURCE = import.meta.url.endsWith('.ts');
const WORKER = new URL(IN_SOURCE ? './worker.ts' : './worker.js', import.meta.url);
const LOADER = ['--import', 'tsx'];
/** MiB of one thread's heap: an item that asks for more ends its thread, not the service. */
const HEAP = 512;
/**
 * MiB of one thread's young generation. One car is some tens of MiB of short-lived values: in the engine's default of 48
 * they are copied before they die, which costs a fifth of all processor time (measured).
 */
const YOUNG = 144;
/** ms for a thread to show that it works. */
const START = 30_000;
/** ms after which an idle thread leaves; what its successor has to compile again takes seconds. */
const IDLE = 300_000;

/** Judges chunks of items on all cores. Threads start with the first batch, and leave when they have long been idle. */
export class BatchPool {
  /** How many chunks are worth having under way at once. */
  readonly width: number;
  readonly #options: BatchPoolOptions;
  readonly #threads: number;
  #pool: Promise<Piscina<Chunk, ItemResult[]> | undefined> | undefined;

  constructor(options: BatchPoolOptions) {
    this.#options = options;
    this.#threads = options.threads ?? availableParallelism();
    this.width = 2 * Math.max(1, this.#threads);
  }

  /**
   * The results of items, in their order. An item that takes too long, or whose thread dies of it, is ended and answered
   * with a problem; its neighbours are answered as if it had not been there.
   * @throws AbortError as soon as `signal` says so
   */
  async judge(items: readonly RawItem[], settings: BatchSettings, signal: AbortSignal): Promise<ItemResult[]> {
    // What could not even be taken apart is nothing to compute, and starts no thread; without items there is nothing at all.
    if (items.every(({ content }) => content.form === 'refused')) return this.#judgeHere({ items, settings }, signal);
    this.#pool ??= this.#start();
    const pool = await this.#pool;
    signal.throwIfAborted();
    return pool === undefined
      ? this.#judgeHere({ items, settings }, signal)
      : this.#judgeThere(pool, items, settings, signal);
  }

  async close(): Promise<void> {
    const pool = await this.#pool;
    this.#pool = Promise.resolve(undefined);
    await pool?.destroy();
  }

  async #start(): Promise<Piscina<Chunk, ItemResult[]> | undefined> {
    if (this.#threads === 0) return undefined;
    let pool: Piscina<Chunk, ItemResult[]> | undefined;
    try {
      const filename = (this.#options.workerFile ?? WORKER).href;
      pool = new Piscina<Chunk, ItemResult[]>({
        filename,
        minThreads: 1,
        maxThreads: this.#threads,
        maxQueue: Math.max(1, this.#options.batches) * this.width,
        idleTimeout: IDLE,
        resourceLimits: { maxOldGenerationSizeMb: HEAP, maxYoungGenerationSizeMb: YOUNG },
        ...(filename.endsWith('.ts') ? { execArgv: LOADER } : {}),
      });
      // A thread that fails between two tasks is replaced; without a listener its error would end the process.
      pool.on('error', () => undefined);
      await pool.run({ items: [], settings: NO_SETTINGS }, { signal: AbortSignal.timeout(START) });
      return pool;
    } catch (error) {
      this.#options.onFallback?.(error);
      await pool?.destroy().catch(() => undefined);
      return undefined;
    }
  }

  async #judgeThere(
    pool: Piscina<Chunk, ItemResult[]>,
    items: readonly RawItem[],
    settings: BatchSettings,
    signal: AbortSignal,
  ): Promise<ItemResult[]> {
    const watch = new Watch(this.#options.itemSeconds);
    try {
      const chunk = { items, settings, progress: watch.progress };
      return await pool.run(chunk, { signal: AbortSignal.any([signal, watch.signal]) });
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
    const limit = this.#options.itemSeconds;
    if (error === undefined) {
      const problem = new HttpProblem('item-timeout', `The item took more than ${limit} s and was ended.`);
      return problemResult(item, null, problem, settings);
    }
    const problem = new HttpProblem('internal-error', 'The service failed to answer. The fault is not in the request.');
    return {
      ...problemResult(item, null, problem, settings),
      failure: error instanceof Error ? error.message : 'the thread ended',
    };
  }

  async #judgeHere(chunk: Chunk, signal: AbortSignal): Promise<ItemResult[]> {
    const results: ItemResult[] = [];
    for (const result of judgeChunk(chunk)) {
      results.push(result);
      // Others have a turn between two items.
      await setImmediate();
      signal.throwIfAborted();
    }
    return results;
  }
}

const NO_SETTINGS: BatchSettings = {
  detail: 'verdict',
  defaults: { decimal: 'point' },
  output: 'json',
  csv: { separator: ',', decimal: 'point' },
  requestId: '',
};
