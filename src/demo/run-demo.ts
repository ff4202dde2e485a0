import { buildApp } from '../http/build-app.js';
import { VERDICTS } from '../rules/finding.js';
import { type CarRow, carRow } from './car-row.js';
import { commonestMistakes } from './commonest-mistakes.js';
import { compareRevisions } from './compare-revisions.js';
import { event } from './event.js';
import { readFormCars } from './form-cars.js';
import { paintFor } from './paint.js';
import { progressOn } from './progress.js';
import { revisionLines } from './revision-lines.js';
import { surprisingRevisions } from './surprising-revisions.js';
import { surprises } from './surprises.js';
import { verdictTable } from './verdict-table.js';
import { verifyEvent } from './verify-event.js';
import { writeReports } from './write-reports.js';
import { wrapWords } from './wrap-words.js';

export interface DemoOptions {
  readonly write: (text: string) => void;
  /** Columns of the terminal. */
  readonly width: number;
  readonly coloured: boolean;
  /** True where a line can be rewritten. Default: it cannot. */
  readonly terminal?: boolean;
  /** Where the reports go. */
  readonly folder: string;
}

/**
 * Starts the service on a free loopback port, has every car of the invented event verified over HTTP and second revisions
 * compared, prints verdicts, mistakes and changes, writes the reports and stops the service.
 * @throws Error where any answer differs from what the calculation by hand says; the service is stopped all the same
 */
export async function runDemo({ write, width, coloured, terminal = false, folder }: DemoOptions): Promise<void> {
  const paint = paintFor(coloured);
  const progress = progressOn(write, terminal);
  // Each thread would load and compile the source tree anew: twice the processor time for so few cars, and no sooner done.
  const app = await buildApp({ logLevel: 'silent', work: { threads: 0 } });
  try {
    const address = await app.listen({ host: '127.0.0.1', port: 0 });
    const form = await readFormCars(event.ruleset);
    const start = performance.now();
    const verified = await verifyEvent(address, form, progress);
    const compared = await compareRevisions(address, verified, form, progress);
    const seconds = ((performance.now() - start) / 1e3).toFixed(1);

    write(`\n${paint(event.name, 'bold')}: ${event.note}\n`);
    const rows = form.submissions.length;
    const how = `${verified.length} cars, ${verified.length - rows} as full descriptions and ${rows} as rows of a form, verified at ${address}, and ${compared.length} second revisions compared, in ${seconds} s. Times are the longest within all tolerances.`;
    write(`${wrapWords(how, width).join('\n')}\n\n`);
    write(`${verdictTable(inOrder(verified.map(carRow)), width, paint)}\n\n`);

    write(`${paint('The commonest mistakes, by the rule they break', 'bold')}\n`);
    for (const { title, cars } of commonestMistakes(verified)) {
      write(
        `${String(cars.length).padStart(3)} x  ${wrapWords(`${title}: ${cars.join(', ')}`, width - 7).join('\n       ')}\n`,
      );
    }

    write(`\n${paint('Second revisions, compared with the first', 'bold')}\n`);
    const indent = Math.max(...compared.map(({ car }) => car.length)) + 4;
    for (const { car, comparison } of compared) {
      const lines = revisionLines(comparison, width - indent).flatMap((line) => wrapWords(line, width - indent));
      write(`${`  ${car}`.padEnd(indent)}${lines.join(`\n${' '.repeat(indent)}`)}\n`);
    }

    const files = await writeReports(verified, folder);
    write(`\n${files.length} reports, one a car, in ${folder}\n`);
    const cautions = verified[0]?.report.cautions.slice(0, 3).map(({ text }) => text) ?? [];
    write(`\n${wrapWords(cautions.join(' '), width).join('\n')}\n`);

    const unexpected = [...surprises(verified), ...surprisingRevisions(compared)];
    if (unexpected.length > 0) throw new Error(`unlike the calculation by hand:\n  ${unexpected.join('\n  ')}`);
  } finally {
    // A line that is still being rewritten must not stand before what went wrong.
    progress.clear();
    await app.close();
  }
}

/** What needs work first, then by name. */
function inOrder(rows: readonly CarRow[]): CarRow[] {
  return [...rows].sort(
    (a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) || (a.car < b.car ? -1 : 1),
  );
}
