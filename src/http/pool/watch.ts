/** Looks often enough that work is ended at most a tenth late: one look to see that it has begun, one that it has not ended. */
const LOOKS_PER_LIMIT = 20;

export interface WatchLimits {
  /** s that one item may take. */
  readonly item: number;
  /** s that may go by before the first item is begun; not stated: any. */
  readonly wait?: number;
}

/** Watches a thread's progress through a chunk, or a call of one item, from outside, since a thread that loops cannot be asked. */
export class Watch {
  /** One Int32 that the thread raises as it begins an item. */
  readonly progress = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  readonly #begun = new Int32Array(this.progress);
  readonly #controller = new AbortController();
  readonly #timer: NodeJS.Timeout;
  #ended: 'waiting' | 'working' | undefined;

  /** Time counts from here on. */
  constructor({ item, wait = Infinity }: WatchLimits) {
    let seen = 0;
    let since = performance.now();
    const look = (): void => {
      const passed = (performance.now() - since) / 1000;
      if (this.begun !== seen) {
        seen = this.begun;
        since = performance.now();
      } else if (seen > 0 && passed >= item) this.#end('working');
      else if (seen === 0 && passed >= wait) this.#end('waiting');
    };
    this.#timer = setInterval(look, Math.max(1, (1000 * Math.min(item, wait)) / LOOKS_PER_LIMIT));
  }

  /** Items begun so far: the last of them is the one in hand. */
  get begun(): number {
    return Atomics.load(this.#begun, 0);
  }

  /** Aborted once an item has taken too long, or once too long has been waited for the first. */
  get signal(): AbortSignal {
    return this.#controller.signal;
  }

  /** Which of the two it was; undefined while it was neither. */
  get ended(): 'waiting' | 'working' | undefined {
    return this.#ended;
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  #end(what: 'waiting' | 'working'): void {
    this.#ended = what;
    this.stop();
    this.#controller.abort();
  }
}
