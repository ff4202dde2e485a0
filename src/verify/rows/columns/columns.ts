import type { Column } from '../column.js';
import { arrangements } from '../arrangements.js';
import { dischargeColumns } from './discharge-columns.js';
import { isolationRelayColumns, packColumns } from './pack-columns.js';
import { prechargeColumns } from './precharge-columns.js';
import { linkColumns, vehicleColumns } from './vehicle-columns.js';

/** Most containers or inverters of one row. */
export const MOST_OF_A_KIND = 8;

const carColumns: readonly Column[] = [
  { name: 'car', meaning: 'What people call the car; the line’s id where it states none.', cell: { form: 'text' } },
  {
    name: 'arrangement',
    meaning: 'How the circuit is wired; the list of arrangements describes each.',
    cell: { form: 'word', words: arrangements.map(({ id }) => id) },
    required: 'always',
  },
  {
    name: 'container_count',
    meaning: 'Accumulator containers in series.',
    cell: { form: 'count', minimum: 1, maximum: MOST_OF_A_KIND },
    required: 'with an arrangement of several containers',
  },
  {
    name: 'inverter_count',
    meaning:
      'Inverters in parallel, each with an equal part of the link’s capacitance. Empty: drawn as one capacitor, which is electrically the same.',
    cell: { form: 'count', minimum: 1, maximum: MOST_OF_A_KIND },
  },
];

/** Every column of a flat row, in the order of the template: what a form asks first, data sheets last. */
export const columns: readonly Column[] = [
  ...carColumns,
  ...packColumns,
  ...linkColumns,
  ...prechargeColumns,
  ...dischargeColumns,
  ...vehicleColumns,
  ...isolationRelayColumns,
];

const byName = new Map(columns.map((column) => [column.name, column]));

/** @throws Error where the table has no such column: a mistake of ours */
export function columnNamed(name: string): Column {
  const column = byName.get(name);
  if (column === undefined) throw new Error(`there is no column ${name}`);
  return column;
}
