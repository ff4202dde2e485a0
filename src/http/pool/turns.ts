/** What asks for threads: single calls, and chunks of batches. */
export type Asker = 'call' | 'chunk';

/**
 * Who may use a thread next: calls and chunks take turns, each kind in the order in which it came. So a call waits for no more
 * chunks than there are calls before it, however many batches are under way, and the other way round. It stands before the
 * pool's own queue, which never holds anything then: there, tasks that can be ended go past any order of ours.
 */
export class Turns {
  readonly #waiting: Readonly<Record<Asker, (() => void)[]>> = { call: [], chunk: [] };
  #free: number;
  #last: Asker = 'chunk';

  /** @param places how many may use a thread at once, ≥ 1 */
  constructor(places: number) {
    this.#free = places;
  }

  /**
   * Waits for a place.
   * @returns what gives it back
   * @throws AbortError where `signal` says so first
   */
  async take(asker: Asker, signal: AbortSignal): Promise<() => void> {
    signal.throwIfAborted();
    if (this.#free > 0) this.#free -= 1;
    else await this.#wait(this.#waiting[asker], signal);
    return () => this.#pass();
  }

  #wait(line: (() => void)[], signal: AbortSignal): Promise<void> {
    return new Promise((resolve, reject) => {
      const enter = (): void => {
        signal.removeEventListener('abort', leave);
        resolve();
      };
      const leave = (): void => {
        line.splice(line.indexOf(enter), 1);
        reject(signal.reason as Error);
      };
      line.push(enter);
      signal.addEventListener('abort', leave, { once: true });
    });
  }

  #pass(): void {
    const other: Asker = this.#last === 'call' ? 'chunk' : 'call';
    const next = this.#waiting[other].length > 0 ? other : this.#last;
    const enter = this.#waiting[next].shift();
    if (enter === undefined) {
      this.#free += 1;
      return;
    }
    this.#last = next;
    enter();
  }
}
