import { callBatch } from './call-batch.js';
import { callService } from './call-service.js';
import { event } from './event.js';
import type { FormCars } from './form-cars.js';
import type { Progress } from './progress.js';
import type { Submission, Verified } from './submission.js';

/** Has every car verified in two batches: the catalogue's descriptions as lines of JSON, the form's rows as the table they are. */
export async function verifyEvent(address: string, form: FormCars, progress: Progress): Promise<Verified[]> {
  const { examples } = await callService<{ examples: ReadonlyArray<{ id: string }> }>(address, '/v1/examples');
  const described = await Promise.all(
    examples.map(({ id }) => callService<Submission>(address, `/v1/examples/${encodeURIComponent(id)}`)),
  );
  const submissions = [...described, ...form.submissions];
  const body = described.map(({ id, request }) => `${JSON.stringify({ id, ...request })}\n`).join('');
  let done = 0;
  const onReport = (): void => {
    done += 1;
    progress.show(`${done} of ${submissions.length} cars verified`);
  };
  const reports = [
    ...(await callBatch(address, { type: 'application/x-ndjson', body }, onReport)),
    ...(await callBatch(address, { type: 'text/csv', query: `&ruleset=${event.ruleset}`, body: form.table }, onReport)),
  ];
  progress.clear();
  if (reports.length !== submissions.length)
    throw new Error(`${submissions.length} cars were sent and ${reports.length} answered`);
  return submissions.flatMap((submission, index) => {
    const report = reports[index];
    return report === undefined ? [] : [{ submission, report }];
  });
}
