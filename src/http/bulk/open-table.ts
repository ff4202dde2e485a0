import { TextDecoder } from 'node:util';
import { httpCapacities } from '../http-capacities.js';
import { invalidRequest } from '../problems/as-problem.js';
import { HttpProblem } from '../problems/http-problem.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { CsvReader, type CsvRecord } from '../../verify/rows/csv-reader.js';
import type { Separator } from '../../verify/rows/detect-separator.js';
import { readHeaders } from '../../verify/rows/header.js';

export interface Table {
  readonly headings: readonly string[];
  readonly separator: Separator;
  /** True where it began with a byte order mark: the answer then begins with one too. */
  readonly marked: boolean;
}

/** Encodings that spreadsheets write; names of the WHATWG Encoding Standard. */
export const CHARSETS = ['utf-8', 'windows-1252', 'iso-8859-1', 'iso-8859-15', 'utf-16le'] as const;

/**
 * A table's headings, and its records as they arrive.
 * @throws HttpProblem where there are no headings, or none or two of a kind that a flat row knows
 */
export async function openTable(
  pieces: AsyncGenerator<Uint8Array>,
  charset: string,
): Promise<{ table: Table; items: AsyncIterable<RawItem[]> }> {
  // The reader takes the byte order mark, since it says so in the answer.
  const decoder = new TextDecoder(charset, { ignoreBOM: true });
  const { batchRecordCharacters: characters, batchRecordLines } = httpCapacities;
  const reader = new CsvReader({ characters, lines: batchRecordLines });
  const source = recordsOf(pieces, decoder, reader);
  let [first, ...others]: CsvRecord[] = [];
  while (first === undefined) {
    const next = await source.next();
    if (next.done === true) break;
    [first, ...others] = next.value;
  }
  const headings = headingsOf(first);
  let index = 0;
  const item = (record: CsvRecord): RawItem => {
    const { line } = record;
    const content =
      'refused' in record
        ? ({ form: 'refused', why: record.refused } as const)
        : ({ form: 'cells', cells: record.cells } as const);
    const made = { index, line, content };
    index += 1;
    return made;
  };
  const items = (async function* rest() {
    yield others.map(item);
    for await (const records of source) yield records.map(item);
  })();
  return { table: { headings, separator: reader.separator ?? ',', marked: reader.marked }, items };
}

async function* recordsOf(
  pieces: AsyncIterable<Uint8Array>,
  decoder: TextDecoder,
  reader: CsvReader,
): AsyncGenerator<CsvRecord[]> {
  for await (const bytes of pieces) yield reader.push(decoder.decode(bytes, { stream: true }));
  yield [...reader.push(decoder.decode()), ...reader.end()];
}

function headingsOf(first: CsvRecord | undefined): readonly string[] {
  if (first === undefined) throw new HttpProblem('empty-body', 'The table is empty.');
  if ('refused' in first) throw new HttpProblem('malformed-csv', 'The table’s first line cannot be read.');
  const { headers, faults } = readHeaders(first.cells);
  if (faults.length > 0) throw invalidRequest(faults);
  if (headers.every(({ column }) => column === undefined)) {
    throw new HttpProblem('malformed-csv', 'The table’s first line has none of the columns of a flat row.');
  }
  return first.cells;
}
