import { calls } from '../calls/calls.js';
import { asProblem } from '../problems/as-problem.js';
import type { CallResult, CallTask } from './call-task.js';

/** Computes one call on a thread; what is wrong is a result too, since an error loses its class on the way back. */
export function runCall({ name, body, type, progress }: CallTask): CallResult {
  Atomics.add(new Int32Array(progress), 0, 1);
  try {
    return { text: calls[name](body).answer(type) };
  } catch (error) {
    const { status, code, detail, options } = asProblem(error);
    if (status < 500) return { problem: { code, detail, options } };
    return { failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
