import { rulesetById } from '../../../src/rules/ruleset-by-id.js';
import { type ExpandedRow, expandRow, rowInput, type RowReading } from '../../../src/verify/rows/expand-row.js';
import { exampleRows } from '../../../src/verify/rows/example-rows.js';
import type { Report } from '../../../src/verify/report.js';
import { verifyCircuit } from '../../../src/verify/verify-circuit.js';

export type Row = Record<string, unknown>;

/** The first example row with changes; an empty text empties a cell. */
export function rowWith(changes: Row = {}): Row {
  return { ...exampleRows[0], ...changes };
}

export function read(row: Row, decimal: 'point' | 'comma' = 'point', meterStated = false): RowReading {
  const input = rowInput(row);
  return 'faults' in input ? input : expandRow(input, { decimal, meterStated });
}

/** `[column, code]` of each fault; empty where the row can be drawn. */
export function faultsOf(row: Row, decimal: 'point' | 'comma' = 'point'): [string, string][] {
  const reading = read(row, decimal);
  if (!('faults' in reading)) return [];
  return reading.faults.map(({ pointer, code }) => [pointer.replace('#/row/', ''), code]);
}

export function drawn(row: Row, decimal: 'point' | 'comma' = 'point'): ExpandedRow {
  const reading = read(row, decimal);
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading;
}

export function judged(row: Row, ruleset = 'student-ev-2020'): Report {
  const book = rulesetById(ruleset);
  if (book === undefined) throw new Error(`no ruleset ${ruleset}`);
  return verifyCircuit({ circuit: drawn(row).circuit, ruleset: book });
}

export function element(row: Row, id: string): any {
  const found = drawn(row).circuit.elements.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no element ${id}`);
  return found;
}
