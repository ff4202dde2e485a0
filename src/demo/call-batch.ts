import type { BatchCounts } from '../verify/batch/batch-schemas.js';
import type { Report } from '../verify/report.js';

/** One line of the answer: a whole report with its place, or what is wrong, or the counts at the end. */
type Line =
  | (Report & { readonly index: number; readonly id: string })
  | { readonly index: number; readonly id: string | null; readonly problem: { readonly detail?: string } }
  | { readonly summary: BatchCounts };

export interface Batch {
  /** Query of the call, after `detail=full`. */
  readonly query?: string;
  readonly type: 'application/x-ndjson' | 'text/csv';
  readonly body: string;
}

/**
 * One call of POST /v1/verify/batch for whole reports, in order of the items; read line by line as it arrives.
 * @param onReport told of each report as it comes
 * @throws Error where an item is answered with a problem, out of order or not at all
 */
export async function callBatch(
  address: string,
  { query = '', type, body }: Batch,
  onReport: () => void,
): Promise<Report[]> {
  const response = await fetch(new URL(`/v1/verify/batch?detail=full${query}`, address), {
    method: 'POST',
    headers: { 'content-type': type, accept: 'application/x-ndjson' },
    body,
  });
  if (response.status !== 200 || response.body === null) {
    throw new Error(`/v1/verify/batch answered ${response.status}: ${await response.text()}`);
  }
  const reports: Report[] = [];
  let summary: BatchCounts | undefined;
  for await (const line of linesOf(response.body)) {
    const answer = JSON.parse(line) as Line;
    if ('summary' in answer) {
      summary = answer.summary;
      continue;
    }
    if ('problem' in answer)
      throw new Error(`${String(answer.id)} could not be verified: ${JSON.stringify(answer.problem)}`);
    if (answer.index !== reports.length) throw new Error(`${answer.id} is answered in another place than it was sent`);
    reports.push(answer);
    onReport();
  }
  if (summary?.count !== reports.length) throw new Error('the answer to the batch is not complete');
  return reports;
}

async function* linesOf(body: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  let rest = '';
  for await (const bytes of body) {
    const lines = (rest + decoder.decode(bytes, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    yield* lines;
  }
  if (rest !== '') yield rest;
}
