/** W that a resistor stands, surely and at most, and the fields that would bring the two together. */
export interface Allowance {
  readonly atLeast: number;
  /** Infinite where nothing bounds it. */
  readonly atMost: number;
  readonly missing: readonly string[];
}
