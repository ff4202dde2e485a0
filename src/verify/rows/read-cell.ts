import { boundedQuantity, type QuantityName } from '../../circuit/bounded-quantities.js';
import { capacities } from '../../circuit/capacities.js';
import type { FaultCode } from '../../circuit/fault-codes.js';
import { readQuantity } from '../../circuit/quantity.js';
import { siUnit } from '../../circuit/quantity-units.js';
import { quoted } from '../../circuit/quoted.js';
import type { RequestFaultCode } from '../fault-codes.js';
import { acceptedCell } from './accepted-cell.js';
import type { Column } from './column.js';

/** What a cell says. A quantity is in SI. */
export type CellValue =
  | { readonly form: 'text' | 'word'; readonly text: string }
  | { readonly form: 'words'; readonly words: readonly string[] }
  | { readonly form: 'yes-no'; readonly yes: boolean }
  | { readonly form: 'number'; readonly number: number; readonly tolerance?: number };

export interface CellFault {
  readonly code: FaultCode | RequestFaultCode;
  readonly detail: string;
  readonly accepted: string;
}

export interface CellContext {
  /** What separates a number's decimals; only text is affected. */
  readonly decimal: 'point' | 'comma';
  /** From the heading: what bare numbers count in. */
  readonly unit?: string;
}

/** Ways in which forms and people say that they do not know. */
export const NOT_STATED: ReadonlySet<string> = new Set([
  '',
  '-',
  '–',
  '—',
  '?',
  'n/a',
  'na',
  'tbd',
  'unknown',
  'not known',
  'not stated',
]);
const YES = new Set(['yes', 'y', 'true', '1']);
const NO = new Set(['no', 'n', 'false', '0']);
/** Marks without width that come along with text copied from a page; a hard space is a space like others. */
const UNSEEN = /[\u00AD\u200B-\u200F\u2060]/g;
const BARE = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,4})?$/;
const TOLERANCE = /^(.*?)\s*(?:±|\+\/?-)\s*([^±]+)$/su;
/** F. No intermediate circuit is as large; a bare 680 is meant in microfarad. */
const ABSURD_CAPACITANCE = 1;

/**
 * A cell as what its column holds; undefined where it is not stated. A bare number counts in the heading's unit, else in
 * the column's SI unit.
 */
export function readCell(column: Column, raw: unknown, context: CellContext): CellValue | CellFault | undefined {
  const fault = (code: CellFault['code'], detail: string): CellFault => ({
    code,
    detail,
    accepted: acceptedCell(column),
  });
  if (raw === null || raw === undefined) return undefined;
  if (typeof raw !== 'string' && typeof raw !== 'number' && typeof raw !== 'boolean') {
    return fault('wrong-type', 'A cell holds text, a number, true, false or null.');
  }
  const text = String(raw).replace(UNSEEN, '').replace(/\s+/g, ' ').trim();
  if (text.includes('\uFFFD')) {
    const detail =
      'The cell has bytes that are not UTF-8; save the file as UTF-8, or name its charset in Content-Type.';
    return fault('undecodable-text', detail);
  }
  if (NOT_STATED.has(text.toLowerCase())) return undefined;
  const { cell } = column;
  switch (cell.form) {
    case 'text':
      return text.length > capacities.labelLength || /\p{Cc}/u.test(text)
        ? fault('wrong-length', `The text is longer than ${capacities.labelLength} characters or not on one line.`)
        : { form: 'text', text };
    case 'word': {
      const word = wordIn(cell.words, text);
      return word === undefined
        ? fault('not-one-of', `${quoted(text)} is not one of the words of this column.`)
        : { form: 'word', text: word };
    }
    case 'words':
      return readWords(cell.words, text, fault);
    case 'yes-no': {
      const answer = text.toLowerCase();
      if (YES.has(answer) || NO.has(answer)) return { form: 'yes-no', yes: YES.has(answer) };
      return fault('not-one-of', `${quoted(text)} is neither \`yes\` nor \`no\`.`);
    }
    case 'count': {
      const count = /^\d+(?:[.,]0+)?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
      return count >= cell.minimum && count <= cell.maximum
        ? { form: 'number', number: count }
        : fault('out-of-bounds', `${quoted(text)} is not a whole number from ${cell.minimum} to ${cell.maximum}.`);
    }
    case 'quantity':
      return typeof raw === 'boolean'
        ? fault('wrong-type', `The value must be ${boundedQuantity(cell.quantity).noun}, not a truth value.`)
        : readNumber(
            column,
            cell.quantity,
            text,
            typeof raw === 'number' ? { ...context, decimal: 'point' } : context,
            fault,
          );
  }
}

type MakeFault = (code: CellFault['code'], detail: string) => CellFault;

/** The word that is meant, whatever its case and whatever stands between its parts. */
function wordIn(words: readonly string[], text: string): string | undefined {
  const plain = (word: string): string => word.toLowerCase().replace(/[\s_-]+/g, '');
  return words.find((word) => plain(word) === plain(text));
}

function readWords(words: readonly string[], text: string, fault: MakeFault): CellValue | CellFault {
  const given = text.split(/[\s,;+]+/).filter((word) => word !== '');
  const read = given.map((word) => wordIn(words, word));
  const wrong = given.find((_, index) => read[index] === undefined);
  if (wrong !== undefined) return fault('not-one-of', `${quoted(wrong)} is not one of the words of this column.`);
  const meant = [...new Set(read.flatMap((word) => word ?? []))];
  if (meant.includes('none') && meant.length > 1) {
    return fault('unsuitable-cell', '`none` stands beside another word.');
  }
  return { form: 'words', words: meant.filter((word) => word !== 'none') };
}

function readNumber(
  column: Column,
  quantity: QuantityName,
  given: string,
  context: CellContext,
  fault: MakeFault,
): CellValue | CellFault {
  let text = given;
  if (context.decimal === 'comma') {
    if (/\d\.\d/.test(text)) {
      const detail = `${quoted(given)} has a point, but the decimals were said to stand behind a comma; write no thousands marks.`;
      return fault('decimal-point', detail);
    }
    text = text.replace(/(\d),(?=\d)/g, '$1.').replace(/(^|[^\d]),(?=\d)/g, '$1.');
  }
  const [, value = text, tolerance] = (column.toleranced === true ? TOLERANCE.exec(text) : null) ?? [];
  const withUnit = inUnit(value.trim(), context.unit);
  if (typeof withUnit === 'number' && quantity === 'capacitance' && withUnit >= ABSURD_CAPACITANCE) {
    const detail = `${quoted(given)} without a unit would be in farad; write the unit into the cell or behind the heading.`;
    return fault('unit-missing', detail);
  }
  const reading = readQuantity(withUnit, quantity);
  if (!('value' in reading)) {
    return fault(reading.code, `${reading.detail}${adviceOn(text, reading.code)}`);
  }
  if (tolerance === undefined) return { form: 'number', number: reading.value };
  // Behind ± a bare number is a ratio like everywhere else; `5 %` is what people write.
  const share = readQuantity(inUnit(tolerance.trim(), undefined), 'tolerance');
  if (!('value' in share)) return fault(share.code, share.detail);
  return { form: 'number', number: reading.value, tolerance: share.value };
}

/** What else helps a person whose spreadsheet writes numbers in its own way. */
function adviceOn(text: string, code: string): string {
  if (code === 'decimal-comma') return ' Where all decimals stand behind a comma, declare `decimal=comma`.';
  return /\d \d/.test(text) ? ' Write no spaces between digits.' : '';
}

/** A bare number with the heading's unit, or as a number in SI; any other text as it is. */
function inUnit(text: string, unit: string | undefined): string | number {
  if (!BARE.test(text)) return text;
  return unit === undefined ? Number(text) : `${text} ${unit}`;
}

/** The unit in which a column's bare numbers count; undefined where it holds no quantity. */
export function columnUnit({ cell }: Column): string | undefined {
  return cell.form === 'quantity' ? siUnit(boundedQuantity(cell.quantity).dimension) : undefined;
}
