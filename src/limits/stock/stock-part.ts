import type { ResistorRatings, Toleranced } from '../../circuit/model.js';

/** A resistor at hand. */
export interface StockPart {
  /** Where no tolerance is stated, that of the part in whose place it is put counts. */
  readonly resistance: Toleranced;
  /** W that it stands permanently, mounted as it will be. */
  readonly power: number;
  /** V; not stated: what needs it stays open. */
  readonly voltage?: number;
  /** What it stands for a short time; not stated: no more than permanently is sure. */
  readonly overload?: NonNullable<ResistorRatings['overload']>;
  /** How many there are. */
  readonly count: number;
}
