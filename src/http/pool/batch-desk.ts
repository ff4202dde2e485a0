import { HttpProblem } from '../problems/http-problem.js';

/** ms that batches get to come to their end when the service stops. */
const GRACE = 10_000;
/** s after which a caller may try again. */
const RETRY_AFTER = 10;

/** A batch that has been let in. */
export interface Admission {
  /** Aborted when the batch is to end, be it done or not. */
  readonly signal: AbortSignal;
  readonly abort: () => void;
  /** Makes room for another. */
  readonly leave: () => void;
}

/** Lets in so many batches at once, each of which has a bounded number of items under way. */
export class BatchDesk {
  readonly #inside = new Set<AbortController>();
  #emptied: (() => void) | undefined;

  constructor(private readonly most: number) {}

  get count(): number {
    return this.#inside.size;
  }

  /** @throws HttpProblem (503) where too many are inside */
  enter(): Admission {
    if (this.#inside.size >= this.most) {
      const detail = `${this.most} batches are being worked on, as many as this instance takes at once.`;
      throw new HttpProblem('busy', detail, { headers: { 'retry-after': String(RETRY_AFTER) } });
    }
    const controller = new AbortController();
    this.#inside.add(controller);
    return {
      signal: controller.signal,
      abort: () => controller.abort(),
      leave: () => {
        this.#inside.delete(controller);
        if (this.#inside.size === 0) this.#emptied?.();
      },
    };
  }

  /** Waits for those inside, and after a while ends them. */
  async close(): Promise<void> {
    if (this.#inside.size === 0) return;
    const emptied = new Promise<void>((resolve) => {
      this.#emptied = resolve;
    });
    const timer = setTimeout(() => {
      for (const controller of this.#inside) controller.abort();
    }, GRACE);
    await emptied;
    clearTimeout(timer);
  }
}
