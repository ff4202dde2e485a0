import { canonicalJson } from '../canonical-json.js';
import { childPointer } from '../../circuit/pointer.js';
import { isRecord } from '../../circuit/is-record.js';
import { significant } from '../significant.js';
import type { FieldMove } from './compare-schemas.js';

/** Digits to which two numbers have to agree to be the same: those that an answer shows. */
const DIGITS = 12;

/** Where two values differ, objects field by field, all else as a whole. Order of keys does not count. */
export function compareValues(before: unknown, after: unknown, pointer = ''): FieldMove[] {
  if (isRecord(before) && isRecord(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort();
    return keys.flatMap((key) => compareValues(before[key], after[key], childPointer(pointer, key)));
  }
  if (sameText(before) === sameText(after)) return [];
  return [{ field: pointer, from: before ?? null, to: after ?? null }];
}

function sameText(value: unknown): string {
  if (typeof value === 'number') return String(significant(value, DIGITS));
  return value === undefined ? 'null' : canonicalJson(value);
}
