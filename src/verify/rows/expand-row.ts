import type { Fault } from '../../circuit/fault.js';
import { finishFaults } from '../../circuit/finish-faults.js';
import { isRecord } from '../../circuit/is-record.js';
import type { ResolvedCircuit } from '../../circuit/model.js';
import { readCircuit } from '../../circuit/read-circuit.js';
import { columnPointers, DRAWN } from './column-pointers.js';
import { toleranceColumnOf } from './column.js';
import { drawRow } from './draw-row.js';
import { type Headers, readHeaders } from './header.js';
import { makeRowFault, ROW } from './make-row-fault.js';
import { namedCar } from './named-car.js';
import { type CellContext, type CellValue, readCell } from './read-cell.js';
import type { Requirements } from './require-cells.js';
import { RowCells } from './row-cells.js';

/** The headings of a table and the cells of one of its rows, each under its heading. */
export interface RowInput {
  readonly headers: Headers;
  readonly cells: readonly unknown[];
  /** Of a table: the lines on which the row begins and, where that is a later one, ends. */
  readonly line?: number | undefined;
  readonly lastLine?: number | undefined;
}

export interface ExpandedRow {
  readonly circuit: ResolvedCircuit;
  /** What the car is called, where the row says it. */
  readonly car?: string;
  readonly arrangement: string;
  /** The caller's own columns, as given. */
  readonly extra: Readonly<Record<string, unknown>>;
  readonly notes: readonly string[];
  /** A pointer into `circuit` as the pointer of the column behind it. */
  readonly toColumn: (pointer: string) => string;
}

export type RowReading = ExpandedRow | { readonly faults: readonly Fault[]; readonly car?: string };

export interface RowOptions extends Requirements, Pick<CellContext, 'decimal'> {}

/** A row given as an object, its keys the headings. */
export function rowInput(row: unknown): RowInput | { readonly faults: readonly Fault[] } {
  if (!isRecord(row)) {
    return { faults: [{ pointer: ROW, code: 'wrong-type', detail: 'A row must be an object: one field a column.' }] };
  }
  return { headers: readHeaders(Object.keys(row)), cells: Object.values(row) };
}

/**
 * The full circuit that a flat row stands for, or every fault of the row at its column. Of a row with cells beyond its headings
 * that alone: its cells stand in columns that are not theirs.
 */
export function expandRow(input: RowInput, options: RowOptions): RowReading {
  const { headers, cells: raw } = input;
  const surplus = surplusFault(input);
  if (surplus !== undefined) {
    const car = namedCar(headers, raw);
    return { faults: [surplus], ...(car === null ? {} : { car }) };
  }
  const faults: Fault[] = [...headers.faults];
  const values = new Map<string, CellValue>();
  const unread = new Set<string>();
  const extra: [string, unknown][] = [];
  for (const [index, { column, text, unit }] of headers.headers.entries()) {
    if (column === undefined) {
      // Some spreadsheets end every line with a separator: a column without a heading and without a cell is none.
      if (text.trim() !== '' || !isBlank(raw[index])) extra.push([text, raw[index] ?? null]);
      continue;
    }
    const context = { decimal: options.decimal, ...(unit === undefined ? {} : { unit }) };
    const reading = readCell(column, raw[index], context);
    if (reading === undefined || values.has(column.name)) continue;
    if ('code' in reading) {
      unread.add(column.name);
      faults.push(makeRowFault(column.name, reading.code, reading.detail, reading.accepted));
    } else values.set(column.name, reading);
  }
  faults.push(...toleranceFaults(values));

  const cells = new RowCells(values, unread);
  const drawing = drawRow(cells, options);
  faults.push(...cells.faults);
  const car = cells.text('car');
  const named = car === undefined ? {} : { car };
  if (faults.length > 0 || drawing === undefined) return { faults: finishFaults(faults, ROW), ...named };

  const wire = { ...drawing.rest, elements: drawing.elements.map(({ fields }) => fields) };
  const toColumn = columnPointers(drawing, (name) => cells.has(name));
  const reading = readCircuit(wire, DRAWN);
  if ('faults' in reading) {
    const moved = reading.faults.map((fault) => ({ ...fault, pointer: toColumn(fault.pointer) }));
    return { faults: finishFaults(moved, ROW), ...named };
  }
  return {
    circuit: reading.circuit,
    ...named,
    arrangement: cells.text('arrangement') ?? '',
    extra: Object.fromEntries(extra),
    notes: headers.notes,
    toColumn,
  };
}

/** Cells beyond the last heading: nobody can say what they are. Empty ones are how some programs end their lines. */
function surplusFault({ headers: { headers }, cells, line = 1, lastLine = line }: RowInput): Fault | undefined {
  if (cells.slice(headers.length).every(isBlank)) return undefined;
  const counts = `The row has ${cells.length} cells under ${headers.length} headings`;
  const lines = `lines ${line} ${lastLine === line + 1 ? 'and' : 'to'} ${lastLine} were read as one row`;
  const cause =
    lastLine === line
      ? 'is a separator in a cell that is not quoted?'
      : `${lines}: is a quote not closed, or a separator in a cell that is not quoted?`;
  return { pointer: ROW, code: 'wrong-length', detail: `${counts}; ${cause}` };
}

function isBlank(cell: unknown): boolean {
  return cell === undefined || cell === null || (typeof cell === 'string' && cell.trim() === '');
}

/** A tolerance stated in the cell and in the column beside it, with two values. */
function toleranceFaults(values: ReadonlyMap<string, CellValue>): Fault[] {
  return [...values].flatMap(([name, value]) => {
    const beside = values.get(toleranceColumnOf(name));
    if (value.form !== 'number' || value.tolerance === undefined || beside?.form !== 'number') return [];
    if (beside.number === value.tolerance) return [];
    const detail = `The tolerance stands in \`${name}\` too, with another value.`;
    return [makeRowFault(toleranceColumnOf(name), 'mixed-tolerance', detail)];
  });
}
