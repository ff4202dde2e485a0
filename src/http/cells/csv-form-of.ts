import { type CsvForm, PLAIN_CSV } from '../../render/csv/csv-cell.js';
import type { Decimal } from '../../verify/cells/parameter-fault.js';

/** With a decimal comma semicolons separate the cells, as spreadsheets with such a locale write and read them. */
export function csvFormOf(decimal: Decimal): CsvForm {
  return decimal === 'comma' ? { separator: ';', decimal } : PLAIN_CSV;
}
