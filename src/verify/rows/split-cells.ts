import type { Separator } from './detect-separator.js';

/** The cells of one record; quotes around a cell are taken off, doubled ones inside become one. */
export function splitCells(record: string, separator: Separator): string[] {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    const { cell, end } = cellAt(record, at, separator);
    cells.push(cell);
    if (end >= record.length) return cells;
    at = end + 1;
  }
}

/** The cell that begins at a place, and where its separator (or the record's end) stands. */
function cellAt(record: string, from: number, separator: Separator): { cell: string; end: number } {
  let at = from;
  while (record[at] === ' ') at += 1;
  if (record[at] !== '"') {
    const end = endOf(record, from, separator);
    return { cell: record.slice(from, end), end };
  }
  let cell = '';
  at += 1;
  for (;;) {
    const quote = record.indexOf('"', at);
    if (quote < 0) return { cell: cell + record.slice(at), end: record.length };
    cell += record.slice(at, quote);
    at = quote + 1;
    if (record[at] !== '"') break;
    cell += '"';
    at += 1;
  }
  const end = endOf(record, at, separator);
  return { cell: cell + record.slice(at, end).trimEnd(), end };
}

function endOf(record: string, from: number, separator: Separator): number {
  const end = record.indexOf(separator, from);
  return end < 0 ? record.length : end;
}
