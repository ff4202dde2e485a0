import type { ErrorObject } from 'ajv';
import type { Fault } from './fault.js';
import { readQuantity } from './quantity.js';
import { readResistanceCurve } from './resistance-curve.js';
import type { Reading } from './schema/quantity-schemas.js';
import { readToleranced } from './toleranced.js';

/** The Ajv keyword by which a reader judges a value in place of the published schema. */
export const READING_KEYWORD = 'reading';

interface KeywordCheck {
  (reading: Reading, value: unknown): boolean;
  errors?: Partial<ErrorObject>[];
}

/** Ajv's check of that keyword: carries the reader's faults, their pointers relative to the value, in one error. */
export const judgeReading: KeywordCheck = (reading, value) => {
  const faults = readingFaults(reading, value);
  judgeReading.errors = [{ keyword: READING_KEYWORD, message: 'cannot be read', params: { faults } }];
  return faults.length === 0;
};

function readingFaults(reading: Reading, value: unknown): readonly Fault[] {
  if (reading.form === 'resistance-curve') {
    const curve = readResistanceCurve(value, '');
    return 'value' in curve ? [] : curve.faults;
  }
  if (reading.form === 'toleranced') {
    const range = readToleranced(value, reading.quantity, '');
    return 'value' in range ? [] : range.faults;
  }
  const plain = readQuantity(value, reading.quantity);
  return 'value' in plain ? [] : [{ pointer: '', ...plain }];
}
