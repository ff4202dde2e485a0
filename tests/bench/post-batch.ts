import { once } from 'node:events';
import { type IncomingMessage, request as httpRequest } from 'node:http';

export interface BatchRun {
  /** s from the first line sent to the first line answered, and to the last. */
  readonly first: number;
  readonly whole: number;
}

const LINE_FEED = 0x0a;

/**
 * Sends lines as fast as they are taken, reads the answers meanwhile and keeps none.
 * @throws Error where the batch is not answered to its end, or with another number of errors than expected
 */
export async function postBatch(
  address: string,
  lines: Iterable<string>,
  { detail = 'full', errors = 0 } = {},
): Promise<BatchRun> {
  const request = httpRequest(`${address}/v1/verify/batch?detail=${detail}`, {
    method: 'POST',
    headers: { 'content-type': 'application/x-ndjson' },
  });
  const responding = once(request, 'response') as Promise<[IncomingMessage]>;
  const start = performance.now();
  const sent = (async () => {
    for (const line of lines) if (!request.write(line)) await once(request, 'drain');
    request.end();
  })();
  const [response] = await responding;
  let first: number | undefined;
  let end = '';
  for await (const bytes of response as AsyncIterable<Buffer>) {
    if (first === undefined && bytes.includes(LINE_FEED)) first = (performance.now() - start) / 1e3;
    end = (end + bytes.toString('latin1')).slice(-300);
  }
  await sent;
  if (first === undefined || !end.endsWith(`"errors":${String(errors)}}}\n`)) {
    throw new Error(`the batch was answered ${String(response.statusCode)} and ended with ${end}`);
  }
  return { first, whole: (performance.now() - start) / 1e3 };
}
