import type { HttpProblem, ProblemError } from './http-problem.js';
import { problemTable } from './problem-table.js';

const UUID = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

export interface ProblemDocument {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance?: string;
  readonly code: string;
  readonly requestId: string;
  readonly errors?: readonly ProblemError[];
  readonly accepted?: readonly string[];
}

/** The wire form of a problem (RFC 9457), its members in a fixed order. */
export function problemDocument(problem: HttpProblem, requestId: string): ProblemDocument {
  const { status, title } = problemTable[problem.code];
  const { errors, accepted } = problem.options;
  return {
    type: `/problems/${problem.code}`,
    title,
    status,
    detail: problem.detail,
    ...(UUID.test(requestId) ? { instance: `urn:uuid:${requestId}` } : {}),
    code: problem.code,
    requestId,
    ...(errors === undefined ? {} : { errors }),
    ...(accepted === undefined ? {} : { accepted }),
  };
}
