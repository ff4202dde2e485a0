import { acceptedForm } from './accepted-form.js';
import { type BoundedQuantity, boundedQuantity, type QuantityName } from './bounded-quantities.js';
import { capacities } from './capacities.js';
import type { FaultCode } from './fault-codes.js';
import { DIMENSIONS, powerOfLetter, powerOfUnit, siUnit } from './quantity-units.js';
import { quoted } from './quoted.js';

/** Why a value cannot be read as a quantity. `detail` is a whole sentence. */
export interface QuantityFault {
  readonly code: FaultCode;
  readonly detail: string;
  readonly accepted: string;
}

export type QuantityReading = { readonly value: number } | QuantityFault;

/** No-break, figure, thin and narrow no-break spaces, as word processors put them before a unit. */
const SPACES = /[\u00A0\u2007\u2009\u202F]/g;
const NUMBER_AND_REST = /^([+-]?)(\d+(?:\.\d*)?|\.\d+)(?:[eE]([+-]?\d{1,4}))?\s*(.*)$/s;
const LETTER_CODE = /^([+-]?)(\d*)(\p{L}|\u00B5)(\d*)$/u;
const LONE_PREFIX = /^[pnu\u00B5\u03BCmkKMG]$/;
const STARTS_WITH_DIGIT = /^[\d.]/;
const NUMBER_WITH_COMMA = /^[+-]?[\d.\s]*,\s*\d/;

/**
 * Reads a quantity: a finite number in SI, text with a unit (`47 kΩ`, `680 uF`), or for resistances and capacitances a
 * letter code in the manner of IEC 60062 (`4k7`, `680u`, `R47`).
 *
 * The unit's power of ten is put into the text and the text parsed once, so that `680 µF` is the double nearest to
 * 0.00068 and equal to what `0.00068` gives; multiplying by 1e-6 would not be.
 * @returns the value in the quantity's SI unit, within its bounds; else the fault.
 */
export function readQuantity(input: unknown, name: QuantityName): QuantityReading {
  const quantity = boundedQuantity(name);
  if (typeof input === 'number') return withinBounds(input, quantity, String(input));
  if (typeof input === 'string') return readText(input, quantity);
  if (input === null) return fault(quantity, 'wrong-type', `The value must not be null; ${quantity.noun} is wanted.`);
  return fault(quantity, 'wrong-type', `The value must be ${quantity.noun}, not ${kindOf(input)}.`);
}

function readText(input: string, quantity: BoundedQuantity): QuantityReading {
  const text = input.replace(SPACES, ' ').replaceAll('\u2212', '-').trim();
  if (text === '')
    return fault(quantity, 'empty-quantity', 'The text is empty; leave the field out if the value is not known.');
  if (text.length > capacities.quantityLength) {
    return fault(quantity, 'not-a-quantity', `The text is longer than ${capacities.quantityLength} characters.`);
  }
  if (NUMBER_WITH_COMMA.test(text)) {
    const detail = `${quoted(input)} has a comma; a number takes a decimal point and no thousands mark.`;
    return fault(quantity, 'decimal-comma', detail);
  }
  const [, sign = '', digits = '', exponent = '0', unit = ''] = NUMBER_AND_REST.exec(text) ?? [];
  const power = digits === '' ? undefined : powerOfNumberEnd(unit, quantity);
  if (power !== undefined) {
    return withinBounds(Number(`${sign}${digits}e${Number(exponent) + power}`), quantity, text);
  }
  const coded = readLetterCode(text, quantity);
  if (coded !== undefined) return withinBounds(coded, quantity, text);
  return digits === '' ? unreadable(input, quantity) : unitFault(input, unit, quantity);
}

/** A unit, or a lone prefix where the quantity takes letter codes (`47 M`, `1.5k`). */
function powerOfNumberEnd(unit: string, quantity: BoundedQuantity): number | undefined {
  return powerOfUnit(quantity.dimension, unit) ?? powerOfLetter(quantity.dimension, unit);
}

function readLetterCode(text: string, quantity: BoundedQuantity): number | undefined {
  const [, sign = '', whole = '', letter = '', decimals = ''] = LETTER_CODE.exec(text) ?? [];
  const power = powerOfLetter(quantity.dimension, letter);
  if (power === undefined || whole + decimals === '') return undefined;
  return Number(`${sign}${whole}.${decimals}e${power}`);
}

function unitFault(input: string, unit: string, quantity: BoundedQuantity): QuantityFault {
  const { dimension } = quantity;
  if (unit === '') {
    return fault(
      quantity,
      'unit-missing',
      `${quoted(input)} has no unit; text needs one (here ${siUnit(dimension)}), a plain number does not.`,
    );
  }
  if (dimension === 'resistance' && /^m\d*$/.test(unit)) {
    const detail = `${quoted(input)} leaves open whether milli or mega is meant; write mΩ (or the letter L) or MΩ.`;
    return fault(quantity, 'unit-missing', detail);
  }
  if (LONE_PREFIX.test(unit) && dimension !== 'ratio') {
    return fault(
      quantity,
      'unit-missing',
      `${quoted(input)} has a prefix but no unit; ${siUnit(dimension)} is wanted.`,
    );
  }
  const other = DIMENSIONS.find((candidate) => candidate !== 'ratio' && powerOfUnit(candidate, unit) !== undefined);
  if (other !== undefined || unit === '%') {
    const noun = other === undefined ? 'a ratio' : boundedQuantity(other).noun;
    return fault(quantity, 'wrong-unit', `${quoted(input)} is ${noun}; ${quantity.noun} is wanted.`);
  }
  if (STARTS_WITH_DIGIT.test(unit)) return unreadable(input, quantity);
  return fault(
    quantity,
    'unknown-unit',
    `${quoted(unit)} is not a unit of ${boundedQuantity(dimension).noun.replace(/^an? /, '')}.`,
  );
}

function unreadable(input: string, quantity: BoundedQuantity): QuantityFault {
  return fault(quantity, 'not-a-quantity', `${quoted(input)} cannot be read as ${quantity.noun}.`);
}

function withinBounds(value: number, quantity: BoundedQuantity, text: string): QuantityReading {
  const { minimum, maximum, aboveMinimum = false, belowMaximum = false } = quantity;
  if (Number.isNaN(value))
    return fault(quantity, 'not-a-quantity', `${quoted(text)} cannot be read as ${quantity.noun}.`);
  const low = value < minimum || (aboveMinimum && value === minimum);
  const high = value > maximum || (belowMaximum && value === maximum);
  // Adding 0 turns -0 into 0.
  if (!low && !high) return { value: value + 0 };
  const unit = siUnit(quantity.dimension);
  const bound = low
    ? `${aboveMinimum ? 'above' : 'at least'} ${minimum}`
    : `${belowMaximum ? 'below' : 'at most'} ${maximum}`;
  return fault(
    quantity,
    'out-of-bounds',
    `${quoted(text)} is out of bounds: it must be ${bound}${unit === '' ? '' : ` ${unit}`}.`,
  );
}

function fault(quantity: BoundedQuantity, code: FaultCode, detail: string): QuantityFault {
  return { code, detail, accepted: acceptedForm(quantity) };
}

function kindOf(input: unknown): string {
  if (Array.isArray(input)) return 'a list';
  if (typeof input === 'boolean') return 'a truth value';
  return typeof input === 'object' ? 'an object' : 'nothing';
}
