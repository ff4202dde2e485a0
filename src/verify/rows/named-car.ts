import type { Headers } from './header.js';
import { readCell } from './read-cell.js';

/**
 * What the car of a row is called that cannot be read as a whole.
 * @param cells as far as they were read; the last one broke off, or stands beyond the headings
 */
export function namedCar({ headers }: Headers, cells: readonly unknown[]): string | null {
  const place = headers.findIndex(({ column }) => column?.name === 'car');
  const column = headers[place]?.column;
  if (column === undefined || place >= cells.length - 1) return null;
  const reading = readCell(column, cells[place], { decimal: 'point' });
  return reading !== undefined && 'text' in reading ? reading.text : null;
}
