import type { Readable } from 'node:stream';
import { HttpProblem } from '../problems/http-problem.js';

/**
 * The bytes of a body as they arrive. Only the time for which more is wanted and nothing comes counts: a body may take as
 * long as its computation does.
 * @param idle ms
 * @throws HttpProblem (408) where nothing comes for that long
 */
export async function* arriving(body: Readable, idle: number): AsyncGenerator<Uint8Array> {
  const pieces = body[Symbol.asyncIterator]() as AsyncIterator<Uint8Array>;
  try {
    for (;;) {
      const next = await within(pieces.next(), idle);
      if (next.done === true) return;
      yield next.value;
    }
  } finally {
    // Not waited for: behind a piece that never comes it would not come to an end either.
    pieces.return?.().catch(() => undefined);
  }
}

async function within<T>(wanted: Promise<T>, idle: number): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    const detail = `Nothing arrived for ${idle / 1000} s; what had arrived until then is answered.`;
    timer = setTimeout(() => reject(new HttpProblem('request-timeout', detail)), idle);
  });
  try {
    return await Promise.race([wanted, late]);
  } finally {
    clearTimeout(timer);
  }
}
