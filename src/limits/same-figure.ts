import type { Figure } from '../facts/figure.js';

/** True where two figures agree to the last bit, as they do where nothing differs in what they are computed from. */
export function sameFigure(a: Figure, b: Figure): boolean {
  return (
    a.nominal === b.nominal &&
    a.min === b.min &&
    a.max === b.max &&
    a.stated.min === b.stated.min &&
    a.stated.max === b.stated.max
  );
}
