/** Looks often enough that work is ended at most a tenth late: one look to see that it has begun, one that it has not ended. */
const LOOKS_PER_LIMIT = 20;

/** Watches a thread's progress through a chunk, or a call of one item, from outside, since a thread that loops cannot be asked. */
export class Watch {
  /** One Int32 that the thread raises as it begins an item. */
  readonly progress = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  readonly #begun = new Int32Array(this.progress);
  readonly #controller = new AbortController();
  readonly #timer: NodeJS.Timeout;

  /** @param limit s that one item may take; before the first is begun no time counts */
  constructor(limit: number) {
    const allowed = limit * 1000;
    let seen = 0;
    let since = performance.now();
    const look = (): void => {
      if (this.begun !== seen) {
        seen = this.begun;
        since = performance.now();
      } else if (seen > 0 && performance.now() - since >= allowed) this.#controller.abort();
    };
    this.#timer = setInterval(look, Math.max(1, allowed / LOOKS_PER_LIMIT));
  }

  /** Items begun so far: the last of them is the one in hand. */
  get begun(): number {
    return Atomics.load(this.#begun, 0);
  }

  /** Aborted once an item has taken too long. */
  get signal(): AbortSignal {
    return this.#controller.signal;
  }

  stop(): void {
    clearInterval(this.#timer);
  }
}
