import type { CallName } from '../calls/calls.js';
import type { ProblemOptions } from '../problems/http-problem.js';
import type { ProblemCode } from '../problems/problem-table.js';

/** One call for a thread. Plain data. */
export interface CallTask {
  readonly name: CallName;
  /** Of the request, parsed. */
  readonly body: unknown;
  /** Media type of the answer. */
  readonly type: string;
  /** Shared memory of one Int32, raised as the work begins. */
  readonly progress: SharedArrayBuffer;
}

/** What the thread has to say: the answer as it is sent, or what is wrong with the request. */
export type CallResult =
  | { readonly text: string }
  | { readonly problem: { readonly code: ProblemCode; readonly detail: string; readonly options: ProblemOptions } }
  /** A mistake of our own, for the log. */
  | { readonly failure: string };
