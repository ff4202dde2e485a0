import { type ProblemCode, problemTable } from './problem-table.js';

/** One entry of `errors[]`: about a place in the body (`pointer`) or about a query parameter (`parameter`). */
export interface ProblemError {
  readonly pointer?: string;
  readonly parameter?: string;
  readonly detail: string;
  readonly code: string;
  readonly accepted?: string;
}

export interface ProblemOptions {
  readonly errors?: readonly ProblemError[];
  /** What would be accepted instead, where it is a list (media types, methods). */
  readonly accepted?: readonly string[];
  readonly headers?: Readonly<Record<string, string>>;
}

/** Thrown anywhere in a request's life and turned into a problem document by the error handler. */
export class HttpProblem extends Error {
  override readonly name = 'HttpProblem';
  readonly status: number;

  constructor(
    readonly code: ProblemCode,
    readonly detail: string,
    readonly options: ProblemOptions = {},
  ) {
    super(detail);
    this.status = problemTable[code].status;
  }
}
