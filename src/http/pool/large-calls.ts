import type { ServerResponse } from 'node:http';
import type { Piscina } from 'piscina';
import type { Question } from '../calls/call.js';
import { busy } from '../problems/busy.js';
import { HttpProblem } from '../problems/http-problem.js';
import type { CallResult, CallTask } from './call-task.js';
import type { Desk } from './desk.js';
import type { Threads } from './threads.js';
import { Watch } from './watch.js';

/** A call that is too much work for the thread that answers everyone. */
export interface LargeCall extends Omit<CallTask, 'progress'> {
  /** The body as read. */
  readonly question: Question;
}

export interface LargeCallsOptions {
  readonly threads: Threads;
  /** Lets in so many at once. */
  readonly desk: Desk;
  /** s that one may take, once it has been begun. */
  readonly seconds: number;
  /** s that one may wait until it is begun. */
  readonly waitSeconds: number;
}

/** Computes large calls on threads, so many at once, each begun and ended within a time, and no longer than its caller waits. */
export class LargeCalls {
  constructor(private readonly options: LargeCallsOptions) {}

  /**
   * The answer as it is sent.
   * @param connection whose end is the end of the work
   * @throws HttpProblem; CircuitFault where there are no threads
   */
  async answer(call: LargeCall, connection: ServerResponse): Promise<string> {
    const { threads, desk, seconds, waitSeconds } = this.options;
    if (threads.count === 0) return call.question.answer(call.type);
    const { signal, abort, leave } = desk.enter();
    connection.once('close', abort);
    // From here, so that the wait for the first thread counts as well.
    const watch = new Watch({ item: seconds, wait: waitSeconds });
    try {
      const pool = await threads.start();
      signal.throwIfAborted();
      return pool === undefined ? call.question.answer(call.type) : await this.#answerThere(pool, call, watch, signal);
    } catch (error) {
      if (!signal.aborted) throw error;
      throw new HttpProblem('shutting-down', 'This instance stops, and the work was ended before its end.');
    } finally {
      watch.stop();
      connection.off('close', abort);
      leave();
    }
  }

  async #answerThere(
    pool: Piscina,
    { question, ...call }: LargeCall,
    watch: Watch,
    signal: AbortSignal,
  ): Promise<string> {
    try {
      const work = { asker: 'call', name: 'runCall', task: call } as const;
      const result = (await this.options.threads.run(pool, work, watch, signal)) as CallResult;
      if ('text' in result) return result.text;
      if ('failure' in result) throw new Error(result.failure);
      const { code, detail, options } = result.problem;
      throw new HttpProblem(code, detail, options);
    } catch (error) {
      const costly = (code: 'call-timeout' | 'too-costly', what: string) =>
        new HttpProblem(code, [what, ...question.costly()].join(' '));
      if (watch.ended === 'waiting')
        throw busy(`No thread was free for this call within ${this.options.waitSeconds} s; it was not begun.`);
      if (watch.ended === 'working')
        throw costly('call-timeout', `The computation took more than ${this.options.seconds} s and was ended.`);
      // A thread that dies of what it was asked dies of the same again.
      if (isOutOfMemory(error))
        throw costly('too-costly', 'The computation needs more memory than one call may have, and was ended.');
      throw error;
    }
  }
}

/** What Node calls the end of a thread whose heap is full. */
function isOutOfMemory(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
}
