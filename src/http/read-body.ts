import type { TObject } from '@sinclair/typebox';
import { type Request, readRequest } from '../verify/read-request.js';
import { invalidRequest } from './problems/as-problem.js';

/**
 * A body as the request it stands for.
 * @throws HttpProblem (422) with every fault
 */
export function readBody(schema: TObject, body: unknown): Request {
  const reading = readRequest(schema, body);
  if ('faults' in reading) throw invalidRequest(reading.faults);
  return reading.request;
}
