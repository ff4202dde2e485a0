import type { Report } from '../verify/report.js';
import { callService } from './call-service.js';
import type { Submission, Verified } from './submission.js';

/** Fetches the event's submissions from the service's catalogue and has each verified, in the catalogue's order. */
export async function verifyEvent(address: string): Promise<Verified[]> {
  const { examples } = await callService<{ examples: ReadonlyArray<{ id: string }> }>(address, '/v1/examples');
  const verified: Verified[] = [];
  for (const { id } of examples) {
    const submission = await callService<Submission>(address, `/v1/examples/${encodeURIComponent(id)}`);
    verified.push({ submission, report: await callService<Report>(address, '/v1/verify', submission.request) });
  }
  return verified;
}
