import { busy } from '../problems/busy.js';

/** ms that what is under way gets to come to their end when the service stops. */
const GRACE = 10_000;

/** Work that has been let in: a batch, or a large call. */
export interface Admission {
  /** Aborted when the work is to end, be it done or not. */
  readonly signal: AbortSignal;
  readonly abort: () => void;
  /** Makes room for another. */
  readonly leave: () => void;
}

/** Lets in so much at once. */
export class Desk {
  readonly #inside = new Set<AbortController>();
  #emptied: (() => void) | undefined;

  /** @param what is let in, in the plural */
  constructor(
    private readonly most: number,
    private readonly what: string,
  ) {}

  get count(): number {
    return this.#inside.size;
  }

  /** @throws HttpProblem (503) where too many are inside */
  enter(): Admission {
    if (this.#inside.size >= this.most) {
      throw busy(`This instance works on ${this.most} ${this.what}, as many as it takes at once.`);
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
