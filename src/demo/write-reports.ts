import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { markdownReport } from '../render/index.js';
import type { Verified } from './submission.js';

/**
 * One Markdown file a car in `folder`, which is made where it is missing; older files of the same names are replaced.
 * @returns the files' paths
 * @throws Error where two cars' names lead to one file
 */
export async function writeReports(verified: readonly Verified[], folder: string): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const written = new Set<string>();
  for (const { submission, report } of verified) {
    const path = join(folder, `${fileName(submission.request.circuit.title)}.md`);
    if (written.has(path)) throw new Error(`two cars would be written to ${path}`);
    written.add(path);
    await writeFile(
      path,
      markdownReport(report, { title: submission.request.circuit.title, summary: submission.summary }),
    );
  }
  return [...written];
}

/** Letters and digits only, so that a car's name never leaves the folder. */
function fileName(title: string): string {
  return (
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'car'
  );
}
