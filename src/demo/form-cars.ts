import { readFile } from 'node:fs/promises';
import { CsvReader } from '../verify/rows/csv-reader.js';
import type { Submission } from './submission.js';

const TABLE = new URL('event/form-cars.csv', import.meta.url);
const NOTES = new URL('event/form-cars.json', import.meta.url);
/** Far above what the form's own file has. */
const LIMITS = { characters: 65_536, lines: 10 };

export interface FormCars {
  /** The table as the form exports it. */
  readonly table: string;
  /** Its rows, cell by column, in the table's order. */
  readonly rows: ReadonlyArray<Readonly<Record<string, string>>>;
  readonly submissions: readonly Submission[];
}

/**
 * Cars that came as rows of a form's export.
 * @throws Error where the notes beside the table are of other cars
 */
export async function readFormCars(ruleset: string): Promise<FormCars> {
  const table = await readFile(TABLE, 'utf8');
  const notes = JSON.parse(await readFile(NOTES, 'utf8')) as ReadonlyArray<
    Pick<Submission, 'summary' | 'expected'> & { readonly car: string }
  >;
  const reader = new CsvReader(LIMITS);
  const [headings = [], ...records] = [...reader.push(table), ...reader.end()].map((record) =>
    'cells' in record ? record.cells : [],
  );
  const rows = records.map((cells) => Object.fromEntries(headings.map((name, column) => [name, cells[column] ?? ''])));
  const submissions = rows.map(({ car = '' }, index): Submission => {
    const note = notes[index];
    if (note === undefined || note.car !== car || notes.length !== rows.length) {
      throw new Error(`the notes on the form’s cars are not in the order of its rows at ${car}`);
    }
    const { summary, expected } = note;
    return { id: car, title: car, summary, request: { circuit: { title: car }, ruleset }, expected };
  });
  return { table, rows, submissions };
}
