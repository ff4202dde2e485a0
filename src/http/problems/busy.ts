import { HttpProblem } from './http-problem.js';

/** s after which a caller may try again. */
const RETRY_AFTER = 10;

/** The 503 for work that was not begun: the same request may be answered a little later. */
export function busy(detail: string): HttpProblem {
  return new HttpProblem('busy', detail, { headers: { 'retry-after': String(RETRY_AFTER) } });
}
