import type { Toleranced } from '../../circuit/model.js';

/** A resistor at hand. */
export interface StockPart {
  /** Where no tolerance is stated, that of the part in whose place it is put counts. */
  readonly resistance: Toleranced;
  /** W that it stands permanently, mounted as it will be. */
  readonly power: number;
  /** How many there are. */
  readonly count: number;
}
