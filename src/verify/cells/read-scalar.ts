import { boundedQuantity, type QuantityName } from '../../circuit/bounded-quantities.js';
import { acceptedForm } from '../../circuit/accepted-form.js';
import { readQuantity } from '../../circuit/quantity.js';
import { quoted } from '../../circuit/quoted.js';
import type { Decimal, ParameterFault } from './parameter-fault.js';

/** All of a query is text; a bare number in it is meant as one, in SI. */
const BARE_NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,4})?$/;

/** `1.500` where decimals follow a comma: one and a half, or fifteen hundred. `0.950` can only be the one. */
const MAYBE_THOUSANDS = /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?![\d.])/;

export type ScalarReading = { readonly value: number } | Omit<ParameterFault, 'parameter'>;

/**
 * Reads one value of a query: a number in SI, text with a unit, or a letter code. With a decimal comma a point is read too,
 * since addresses are often written by hand in part, unless it could be a thousands mark.
 */
export function readScalar(text: string, name: QuantityName, decimal: Decimal): ScalarReading {
  const trimmed = text.trim();
  if (decimal === 'comma' && MAYBE_THOUSANDS.test(trimmed)) {
    const detail = `${quoted(text)} could be meant with a decimal point or with a thousands mark.`;
    return { code: 'ambiguous-number', detail, accepted: acceptedForm(boundedQuantity(name)) };
  }
  const pointed = decimal === 'comma' ? trimmed.replace(',', '.') : trimmed;
  const reading = readQuantity(BARE_NUMBER.test(pointed) ? Number(pointed) : pointed, name);
  if ('value' in reading || reading.code !== 'decimal-comma') return reading;
  return { ...reading, accepted: `${reading.accepted}; for a decimal comma add \`decimal=comma\` to the address` };
}
