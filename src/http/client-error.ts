import { randomUUID } from 'node:crypto';
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { arrivesSlowly } from './bulk/slow-arrivals.js';
import { serialise } from './json/serialise.js';
import { HttpProblem } from './problems/http-problem.js';
import { problemDocument } from './problems/problem-document.js';

/** Bytes that never became a request: answered on the bare socket, in the same form as every other problem. */
export function answerClientError(error: Error & { code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return;
  // A batch may arrive for as long as it is worked on; it has a watch of its own for senders that fall silent.
  if (error.code === 'ERR_HTTP_REQUEST_TIMEOUT' && arrivesSlowly(socket)) return;
  const problem = problemOf(error.code);
  const id = randomUUID();
  const body = serialise(problemDocument(problem, id));
  if (socket.writable) {
    socket.end(
      [
        `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status] ?? ''}`,
        'Content-Type: application/problem+json',
        `Content-Length: ${Buffer.byteLength(body)}`,
        `X-Request-Id: ${id}`,
        'Connection: close',
        '',
        body,
      ].join('\r\n'),
    );
  } else socket.destroy(error);
}

function problemOf(code: string | undefined): HttpProblem {
  if (code === 'ERR_HTTP_REQUEST_TIMEOUT') {
    return new HttpProblem('request-timeout', 'The request did not arrive in time.');
  }
  if (code === 'HPE_HEADER_OVERFLOW') {
    return new HttpProblem('headers-too-large', 'The address and headers together are too large.');
  }
  return new HttpProblem('bad-request', 'What arrived is not an HTTP request.');
}
