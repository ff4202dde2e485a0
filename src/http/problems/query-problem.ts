import { HttpProblem, type ProblemError } from './http-problem.js';

/** The problem (400) that a query with faults is. */
export function queryProblem(errors: readonly ProblemError[]): HttpProblem {
  const count = errors.length === 1 ? 'one fault' : `${errors.length} faults`;
  return new HttpProblem('invalid-query', `The query has ${count}; errors lists all of them.`, { errors });
}
