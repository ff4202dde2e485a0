import type { BoundedPart } from './bounded-part.js';
import { quantityText } from './quantity-text.js';

/** How a part's own tolerance makes its nominal of its bound, as the end of a sentence of a basis. */
export function toNominal({ upward, downward }: BoundedPart, bound: 'min' | 'max'): string {
  const tolerance = bound === 'max' ? upward : downward;
  return tolerance === 0
    ? ''
    : `; divided by 1 ${bound === 'max' ? '+' : '−'} ${quantityText(tolerance, '')} the nominal`;
}
