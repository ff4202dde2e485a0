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
  const { batchRecordCharacters: characters, batchRecordLines } = httpCapacities;
  const reader = new CsvReader({ characters, lines: batchRecordLines });
  const source = recordsOf(pieces, charset, reader);
  let [first, ...others]: CsvRecord[] = [];
  while (first === undefined) {
    const next = await source.next();
    if (next.done === true) break;
    [first, ...others] = next.value;
  }
  const headings = headingsOf(first);
  let index = 0;
  const item = (record: CsvRecord): RawItem => {
    const { cells, refused, ...lines } = record;
    const content: RawItem['content'] =
      refused === undefined ? { form: 'cells', cells } : { form: 'refused', why: refused, cells };
    const made = { index, ...lines, content };
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
  charset: string,
  reader: CsvReader,
): AsyncGenerator<CsvRecord[]> {
  let start: Uint8Array | undefined = new Uint8Array();
  let decoder = decoderFor(charset);
  for await (const piece of pieces) {
    let bytes = piece;
    if (start !== undefined) {
      bytes = Buffer.concat([start, piece]);
      start = bytes.length < MARK_BYTES ? bytes : undefined;
      if (start !== undefined) continue;
      decoder = decoderFor(markedCharset(bytes) ?? charset);
    }
    yield reader.push(decoder.decode(bytes, { stream: true }));
  }
  if (start !== undefined) yield reader.push(decoder.decode(start, { stream: true }));
  yield [...reader.push(decoder.decode()), ...reader.end()];
}

/** The reader takes the byte order mark, since it says so in the answer. */
function decoderFor(charset: string): TextDecoder {
  return new TextDecoder(charset, { ignoreBOM: true });
}

/** Bytes that tell UTF-16 by its mark. */
const MARK_BYTES = 2;

/**
 * What a spreadsheet's "Unicode text" is in, whatever its sender calls it; a mark goes before a label (WHATWG Encoding
 * Standard, section 6.1, BOM sniff).
 */
function markedCharset([first, second]: Uint8Array): string | undefined {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : undefined;
}

function headingsOf(first: CsvRecord | undefined): readonly string[] {
  if (first === undefined) {
    const wanted = 'its first line names the columns, which GET /v1/rows lists, and each further line is one car';
    throw new HttpProblem('empty-body', `The table is empty: ${wanted}.`);
  }
  if (first.refused !== undefined) throw new HttpProblem('malformed-csv', 'The table’s first line cannot be read.');
  const { headers, faults } = readHeaders(first.cells);
  if (faults.length > 0) throw invalidRequest(faults);
  if (headers.every(({ column }) => column === undefined)) {
    throw new HttpProblem('malformed-csv', 'The table’s first line has none of the columns of a flat row.');
  }
  return first.cells;
}
