import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import type { BatchSettings } from './chunk.js';
import { type Asker, Turns } from './turns.js';
import type { Watch } from './watch.js';

export interface ThreadsOptions {
  /** How many; 0: none, everything runs in the calling one and nothing can be ended. Default: one a core. */
  readonly threads?: number;
  /** What the threads run; default: our own worker. */
  readonly workerFile?: URL;
  /** Told why there are no threads where there should be some. */
  readonly onFallback?: (reason: unknown) => void;
}

// In the source tree the worker is TypeScript, which a thread only reads with the loader's help.
const IN_SOURCE = import.meta.url.endsWith('.ts');
const WORKER = new URL(IN_SOURCE ? './worker.ts' : './worker.js', import.meta.url);
const LOADER = ['--import', 'tsx'];
/** MiB of one thread's heap: work that asks for more ends its thread, not the service. */
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

/** What one thread is to do: what its worker exports under `name`, with `task`. */
export interface Work {
  readonly asker: Asker;
  readonly name: string;
  readonly task: object;
}

/**
 * The threads that batches and large calls share. They start with the first work, and leave when they have long been idle.
 * How much may wait for them is for those to bound who let work in.
 */
export class Threads {
  readonly count: number;
  readonly #options: ThreadsOptions;
  readonly #turns: Turns;
  #pool: Promise<Piscina | undefined> | undefined;
  #running = false;

  constructor(options: ThreadsOptions) {
    this.#options = options;
    this.count = options.threads ?? availableParallelism();
    this.#turns = new Turns(Math.max(1, this.count));
  }

  /** True once a thread has shown that it works. */
  get running(): boolean {
    return this.#running;
  }

  /** The pool, started where it was not; undefined where there can be no threads. */
  start(): Promise<Piscina | undefined> {
    this.#pool ??= this.#begin();
    return this.#pool;
  }

  /**
   * The result of some work on a thread of the pool, once it is its turn. It waits no longer, or is ended and its thread
   * with it, as soon as `signal` or the watch says so.
   * @throws AbortError; an error that names no class of ours where the thread dies
   */
  async run(pool: Piscina, { asker, name, task }: Work, watch: Watch, signal: AbortSignal): Promise<unknown> {
    const ends = AbortSignal.any([signal, watch.signal]);
    const leave = await this.#turns.take(asker, ends);
    try {
      return await pool.run({ ...task, progress: watch.progress }, { name, signal: ends });
    } finally {
      leave();
    }
  }

  async close(): Promise<void> {
    const pool = await this.#pool;
    this.#pool = Promise.resolve(undefined);
    this.#running = false;
    await pool?.destroy();
  }

  async #begin(): Promise<Piscina | undefined> {
    if (this.count === 0) return undefined;
    let pool: Piscina | undefined;
    try {
      const filename = (this.#options.workerFile ?? WORKER).href;
      pool = new Piscina({
        filename,
        minThreads: 1,
        maxThreads: this.count,
        idleTimeout: IDLE,
        resourceLimits: { maxOldGenerationSizeMb: HEAP, maxYoungGenerationSizeMb: YOUNG },
        ...(filename.endsWith('.ts') ? { execArgv: LOADER } : {}),
      });
      // A thread that fails between two tasks is replaced; without a listener its error would end the process.
      pool.on('error', () => undefined);
      await pool.run({ items: [], settings: NO_SETTINGS }, { signal: AbortSignal.timeout(START) });
      this.#running = true;
      return pool;
    } catch (error) {
      this.#options.onFallback?.(error);
      await pool?.destroy().catch(() => undefined);
      return undefined;
    }
  }
}

const NO_SETTINGS: BatchSettings = {
  detail: 'verdict',
  defaults: { decimal: 'point' },
  output: 'json',
  csv: { separator: ',', decimal: 'point' },
  requestId: '',
};
