import { buildApp } from '../http/build-app.js';
import { VERDICTS } from '../rules/finding.js';
import { type CarRow, carRow } from './car-row.js';
import { commonestMistakes } from './commonest-mistakes.js';
import { event } from './event.js';
import { paintFor } from './paint.js';
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
  /** Where the reports go. */
  readonly folder: string;
}

/**
 * Starts the service on a free loopback port, has every car of the invented event verified over HTTP, prints verdicts and
 * mistakes, writes the reports and stops the service.
 * @throws Error where any answer differs from what the calculation by hand says; the service is stopped all the same
 */
export async function runDemo({ write, width, coloured, folder }: DemoOptions): Promise<void> {
  const paint = paintFor(coloured);
  const app = await buildApp({ logLevel: 'silent' });
  try {
    const address = await app.listen({ host: '127.0.0.1', port: 0 });
    const verified = await verifyEvent(address);

    write(
      `\n${paint(event.name, 'bold')}: ${event.note}\n${verified.length} cars verified at ${address}. Times are the longest within all tolerances.\n\n`,
    );
    write(`${verdictTable(inOrder(verified.map(carRow)), width, paint)}\n\n`);

    write(`${paint('The commonest mistakes, by the rule they break', 'bold')}\n`);
    for (const { title, cars } of commonestMistakes(verified)) {
      write(
        `${String(cars.length).padStart(3)} x  ${wrapWords(`${title}: ${cars.join(', ')}`, width - 7).join('\n       ')}\n`,
      );
    }

    const files = await writeReports(verified, folder);
    write(`\n${files.length} reports, one a car, in ${folder}\n`);
    const cautions = verified[0]?.report.cautions.slice(0, 3).map(({ text }) => text) ?? [];
    write(`\n${wrapWords(cautions.join(' '), width).join('\n')}\n`);

    const unexpected = surprises(verified);
    if (unexpected.length > 0) throw new Error(`unlike the calculation by hand:\n  ${unexpected.join('\n  ')}`);
  } finally {
    await app.close();
  }
}

/** What needs work first, then by name. */
function inOrder(rows: readonly CarRow[]): CarRow[] {
  return [...rows].sort(
    (a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) || (a.car < b.car ? -1 : 1),
  );
}
