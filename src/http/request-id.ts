import { randomUUID } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** What we are ready to repeat in headers, bodies and logs: no spaces, quotes, control characters or markup. */
const SANE = /^[A-Za-z0-9][A-Za-z0-9._:-]{0,127}$/;

/** The caller's `X-Request-Id` where it is harmless, else a fresh UUID. */
export function requestId(request: Pick<IncomingMessage, 'headers'>): string {
  const given = request.headers['x-request-id'];
  return typeof given === 'string' && SANE.test(given) ? given : randomUUID();
}
