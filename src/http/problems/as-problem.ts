import { CircuitFault, type Fault } from '../../circuit/fault.js';
import { finishFaults } from '../../circuit/finish-faults.js';
import { HttpProblem, type ProblemError } from './http-problem.js';
import { nowhere } from './nowhere.js';
import type { ProblemCode } from './problem-table.js';

/** Fastify's own errors that a client causes, by their code. Every other error is a mistake of ours. */
const frameworkProblems: Readonly<Record<string, { code: ProblemCode; detail: string }>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: { code: 'body-too-large', detail: 'The body is larger than this service reads.' },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    code: 'unsupported-media-type',
    detail: 'The body must be sent as application/json.',
  },
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: {
    code: 'bad-request',
    detail: 'The body is not as long as the header Content-Length says.',
  },
  FST_ERR_BAD_URL: { code: 'bad-request', detail: 'The address is not a well-formed URI.' },
  FST_STATIC_FORBIDDEN_PATH: { code: 'not-found', detail: nowhere },
  FST_ERR_MAX_PARAM_LENGTH: { code: 'uri-too-long', detail: 'A part of the address is too long.' },
};

/**
 * Any error as the problem it is. Faults of a circuit become 422; a few of the framework's own errors keep their
 * meaning; all else is `internal-error`, whose detail tells nothing of the inside.
 */
export function asProblem(error: unknown): HttpProblem {
  if (error instanceof HttpProblem) return error;
  if (error instanceof CircuitFault) return invalidRequest(finishFaults(error.faults, '#'));
  const known = frameworkProblems[codeOf(error)];
  if (known === undefined) {
    return new HttpProblem('internal-error', 'The service failed to answer. The fault is not in the request.');
  }
  return new HttpProblem(known.code, known.detail, acceptedBy(known.code));
}

/** The 422 for a body with faults. Where nothing but the amount of work is wrong it is `too-costly`. */
export function invalidRequest(faults: readonly Fault[]): HttpProblem {
  const costly = faults.length > 0 && faults.every((fault) => fault.code === 'too-costly');
  const count = faults.length === 1 ? 'one fault' : `${faults.length} faults`;
  return new HttpProblem(
    costly ? 'too-costly' : 'invalid-request',
    costly ? 'The request asks for more work than is allowed.' : `The request has ${count}; errors lists all of them.`,
    { errors: faults.map(asError) },
  );
}

function asError(fault: Fault): ProblemError {
  const { pointer, detail, code, accepted } = fault;
  return { pointer, detail, code, ...(accepted === undefined ? {} : { accepted }) };
}

function acceptedBy(code: ProblemCode) {
  if (code !== 'unsupported-media-type') return {};
  return { accepted: ['application/json'], headers: { 'accept-post': 'application/json' } };
}

function codeOf(error: unknown): string {
  if (typeof error !== 'object' || error === null || !('code' in error)) return '';
  return typeof error.code === 'string' ? error.code : '';
}
