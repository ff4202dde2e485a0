import { preferredValues } from '../circuit/e-series.js';

/** A remedy at the very edge of its bound would be back at the next inspection. */
export const MARGIN = 0.2;

const MOST_TRIES = 12;

/**
 * The largest E24 value that keeps at least the margin below `bound` and for which `holds`; undefined where none of the
 * next few does, so that a remedy never names a value that would not cure.
 */
export function largestPreferred(bound: number, holds: (value: number) => boolean = () => true): number | undefined {
  if (!(bound > 0) || !Number.isFinite(bound)) return undefined;
  return preferredValues(0, bound * (1 - MARGIN), MOST_TRIES).findLast(holds);
}
