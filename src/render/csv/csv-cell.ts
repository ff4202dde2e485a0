export interface CsvForm {
  readonly separator: ',' | ';' | '\t';
  readonly decimal: 'point' | 'comma';
}

/** RFC 4180: commas between cells. */
export const PLAIN_CSV: CsvForm = { separator: ',', decimal: 'point' };

/** A number as people and programs write it, with either mark for its decimals; never a formula. */
const NUMERIC = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?$/;
/** What makes spreadsheets take a cell for a formula, in half and full width (OWASP, CSV injection). */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/u;
/** Significant digits of a number in a cell. */
const CELL_DIGITS = 9;

/**
 * A value as one cell of RFC 4180, quoted where it has to be. Text that could start a formula gets an apostrophe in front,
 * which spreadsheets hide; numbers are left alone. Nothing is an empty cell.
 */
export function csvCell(value: string | number | boolean | null | undefined, form: CsvForm = PLAIN_CSV): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return quotedCell(numberText(value, form), form);
  const text = String(value);
  return quotedCell(FORMULA.test(text) && !NUMERIC.test(text) ? `'${text}` : text, form);
}

/** One line with its ending. */
export function csvLine(cells: ReadonlyArray<Parameters<typeof csvCell>[0]>, form: CsvForm = PLAIN_CSV): string {
  return `${cells.map((cell) => csvCell(cell, form)).join(form.separator)}\r\n`;
}

function quotedCell(text: string, { separator }: CsvForm): string {
  const special = text.includes(separator) || /["\r\n]/.test(text) || text !== text.trim();
  return special ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A number as it stands in a cell. No exponent: `1e-7` in a cell is text to some programs. */
export function numberText(value: number, { decimal }: Pick<CsvForm, 'decimal'>): string {
  const text = plainNumber(value);
  return decimal === 'comma' ? text.replace('.', ',') : text;
}

function plainNumber(value: number): string {
  const rounded = Number(value.toPrecision(CELL_DIGITS)) + 0;
  const text = String(rounded);
  const [, sign = '', digits = '', power = ''] = /^(-?)([\d.]+)e([+-]\d+)$/.exec(text) ?? [];
  if (power === '') return text;
  const [whole = '', decimals = ''] = digits.split('.');
  const exponent = Number(power);
  if (exponent > 0) return sign + whole + decimals.padEnd(exponent, '0');
  return `${sign}0.${'0'.repeat(-exponent - 1)}${whole}${decimals}`;
}
