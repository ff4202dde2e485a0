import type { BoundedQuantity, Dimension } from './bounded-quantities.js';
import { siUnit } from './quantity-units.js';

const SPECIAL_FORMS: Partial<Record<Dimension, string>> = {
  ratio: 'a plain number such as 0.95, or text such as `95 %`',
  resistance: 'a number in Ω, text with a unit such as `4.7 kΩ` or `4.7 kohm`, or a letter code such as `4k7`',
  capacitance: 'a number in F, text with a unit such as `680 µF` or `680 uF`, or a letter code such as `680u`',
};

/** What a quantity's field accepts, in one line for the person who got it wrong. */
export function acceptedForm(quantity: BoundedQuantity): string {
  const unit = siUnit(quantity.dimension);
  return (
    SPECIAL_FORMS[quantity.dimension] ?? `a number in ${unit}, or text with a unit such as \`${quantity.example}\``
  );
}
