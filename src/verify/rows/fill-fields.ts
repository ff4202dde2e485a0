import { pointerKeys } from '../../circuit/pointer.js';
import { type CellTarget, type Column, type Part, toleranceColumnOf } from './column.js';
import { columns } from './columns/columns.js';
import type { DraftElement } from './draft.js';
import type { RowCells } from './row-cells.js';

/**
 * Puts every stated cell into the field it fills, of each element drawn as its part. A cell whose part the row does not
 * have is a fault: one of the two cells is wrong.
 */
export function fillFields(cells: RowCells, elements: readonly DraftElement[], circuit: Record<string, unknown>): void {
  for (const column of columns) {
    const { name, target } = column;
    if (target === undefined || !cells.has(name)) {
      if (column.toleranced === true && cells.has(toleranceColumnOf(name))) {
        cells.unsuitable(toleranceColumnOf(name), `\`${name}\`, whose tolerance it is, is not stated.`);
      }
      continue;
    }
    const parts = elements.filter(({ part }) => part === target.part);
    if (target.part !== 'circuit' && parts.length === 0) {
      tellAbsence(cells, target.part, name);
      continue;
    }
    if (column.drawn === true) continue;
    const value = valueOf(cells, column, target, parts.length);
    if (target.part === 'circuit') setField(circuit, target.field, value);
    else for (const { fields } of parts) setField(fields, target.field, value);
  }
  const range = voltageRange(cells, elements.filter(({ part }) => part === 'pack').length);
  for (const { part, fields } of elements) if (part === 'pack') setField(fields, '/voltage', range);
}

/** Which column says whether the row has a part; a part not listed is in every drawing. */
const DECIDED_BY: Partial<Record<Part, readonly string[]>> = {
  disconnect: ['disconnect_place'],
  meter: ['meter_place'],
  'precharge-fuse': ['precharge_fused'],
  'discharge-fuse': ['discharge_place', 'discharge_fused'],
  'discharge-relay': ['discharge_place', 'discharge_rest'],
  'discharge-resistor': ['discharge_place'],
  'point-resistor': ['measuring_point_resistance'],
};

/** One fault for a part that is described and not there, at the cell that says so. */
function tellAbsence(cells: RowCells, part: Part, name: string): void {
  const deciding = DECIDED_BY[part] ?? [];
  if (deciding.some((column) => cells.isFaulty(column))) return;
  const wordOf = (column: string): string | undefined =>
    cells.text(column) ?? (cells.yes(column) === false ? 'no' : undefined);
  const column = deciding.find((one) => !cells.has(one) || NO_PART.has(wordOf(one) ?? '')) ?? deciding[0] ?? name;
  const word = wordOf(column);
  if (word === undefined) cells.require(column, `\`${name}\` is, and belongs to it.`);
  else cells.unsuitable(column, `\`${column}\` is \`${word}\`, but \`${name}\` is stated.`);
}

const NO_PART = new Set(['none', 'no-contact', 'no']);

function valueOf(cells: RowCells, { name, cell }: Column, target: CellTarget, count: number): unknown {
  if (cell.form === 'word') return cells.text(name);
  const number = cells.number(name);
  if (number === undefined) return undefined;
  const share = shared(number, target, count);
  const tolerance = cells.tolerance(name);
  return tolerance === undefined ? share : { nominal: share, tolerance };
}

function shared(value: number, { share }: CellTarget, count: number): number {
  if (share === undefined) return value;
  return share === 'divided' ? value / count : value * count;
}

/** The share of one of several accumulators in series. A highest voltage alone is a voltage whose range is not stated. */
function voltageRange(cells: RowCells, count: number): unknown {
  const [min, nominal, max] = ['pack_voltage_min', 'pack_voltage_nominal', 'pack_voltage_max'].map((name) => {
    const whole = cells.number(name);
    return whole === undefined ? undefined : whole / count;
  });
  return min === undefined || nominal === undefined ? max : { min, nominal, max };
}

/** Objects on the way are made; a value that could not be read leaves the field out. */
function setField(record: Record<string, unknown>, field: string, value: unknown): void {
  if (value === undefined) return;
  const keys = pointerKeys(`#${field}`);
  const last = keys.pop() ?? '';
  let at = record;
  for (const key of keys) {
    const inner = (at[key] ?? {}) as Record<string, unknown>;
    at[key] = inner;
    at = inner;
  }
  at[last] = value;
}
