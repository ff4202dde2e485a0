/** Items of the largest chunk: what its thread has to do again when one of them is ended. */
const MOST = 16;
/** ms from handing a chunk over to its results. Below the one, handing over costs too much; above the other, callers wait. */
const SHORT = 8;
const LONG = 40;

/**
 * How many items go to a thread at once. Whole cars take tens of milliseconds and go one by one, so that the first is
 * answered at once and even a small event spreads over the cores; faulty lines take a hundredth of one and go together,
 * so that handing them over does not cost more than they do.
 */
export class ChunkPace {
  #items = 1;

  /** Items of the next chunk. */
  get items(): number {
    return this.#items;
  }

  /** Takes in how long a chunk of so many items took, its waiting for a thread included. */
  took(items: number, milliseconds: number): void {
    if (milliseconds > LONG) this.#items = Math.max(1, Math.floor(this.#items / 2));
    // Half a chunk says nothing of whole ones.
    else if (milliseconds < SHORT && items >= this.#items) this.#items = Math.min(MOST, this.#items * 2);
  }
}
