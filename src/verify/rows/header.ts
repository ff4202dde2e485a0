import { closest } from '../../circuit/closest.js';
import type { Fault } from '../../circuit/fault.js';
import { makeRowFault } from './make-row-fault.js';
import { quoted } from '../../circuit/quoted.js';
import type { Column } from './column.js';
import { columns } from './columns/columns.js';

/** One heading of a table, or one key of a row. */
export interface Header {
  /** As given. */
  readonly text: string;
  /** Absent: a column of the caller's own, kept and returned. */
  readonly column?: Column;
  /** Of the heading `Link capacitance (µF)`: what its bare numbers count in. */
  readonly unit?: string;
}

export interface Headers {
  readonly headers: readonly Header[];
  readonly faults: readonly Fault[];
  /** Own columns whose names look like a misspelling of ours. */
  readonly notes: readonly string[];
}

const byKey = new Map(columns.map((column) => [keyOf(column.name), column]));
const WITH_UNIT = /^(.*?)\s*[[(]\s*([^\])]*?)\s*[\])]\s*$/su;

/** Only letters and digits count: `Link capacitance`, `linkCapacitance` and `LINK_CAPACITANCE` are one. */
function keyOf(name: string): string {
  return name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

/**
 * Headings as the columns they stand for, whatever their order, case, spaces and hyphens. A unit in brackets behind a
 * heading holds for its bare numbers.
 */
export function readHeaders(texts: readonly string[]): Headers {
  const headers = texts.map(readHeader);
  const known = new Set(headers.flatMap(({ column }) => column?.name ?? []));
  const faults = headers.flatMap(({ text, column }, index): Fault[] => {
    const first = headers.findIndex((other) => column !== undefined && other.column === column);
    if (column === undefined || first === index) return [];
    const detail = `The column \`${column.name}\` is there twice, as ${quoted(headers[first]?.text ?? '')} and as ${quoted(text)}.`;
    return [makeRowFault(column.name, 'duplicate-column', detail)];
  });
  const absent = columns.filter(({ name }) => !known.has(name)).map(({ name }) => name);
  const notes = headers.flatMap(({ text, column }) => {
    const near = column === undefined && text.trim() !== '' ? closest(nameOf(text), absent) : undefined;
    return near === undefined ? [] : [`${quoted(text)} is not read; did you mean \`${near}\`?`];
  });
  return { headers, faults, notes };
}

function readHeader(text: string): Header {
  const whole = byKey.get(keyOf(text));
  if (whole !== undefined) return { text, column: whole };
  const [, name, unit = ''] = WITH_UNIT.exec(text) ?? [];
  const column = name === undefined ? undefined : byKey.get(keyOf(name));
  if (column === undefined) return { text };
  // A remark behind a heading is no unit where no number is wanted: `Discharge rest (closed/open)`.
  return column.cell.form === 'quantity' && unit !== '' ? { text, column, unit } : { text, column };
}

function nameOf(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');
}
