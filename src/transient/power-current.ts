/** Exponentials beside the constant in a constant-power load's course, at 1, 2, 3 … times one rate: a polynomial in e^(−rate·t). */
export const FADINGS = 7;

/** The course of a constant-power load's current over a step: constant + Σ fading[k]·e^(−(k + 1)·rate·t). */
export interface PowerCurrent {
  /** A */
  readonly constant: number;
  /** A, one each of the `FADINGS`. */
  readonly fading: readonly number[];
  /** 1/s, > 0 */
  readonly rate: number;
}
