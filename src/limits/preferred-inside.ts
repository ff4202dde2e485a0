import { preferredValues, type Series } from '../circuit/e-series.js';

/** What a part's true value must stay between, both ends excluded; null: open. */
export interface TrueBounds {
  readonly above: number | null;
  readonly below: number | null;
}

/** The part's own relative tolerance towards larger and smaller values. */
export interface OwnTolerance {
  readonly upward: number;
  readonly downward: number;
}

/**
 * The values of a series that keep inside the bounds over the tolerance of the series and over the part's own, whichever is
 * wider; the one whose worst true value is farthest (as a ratio) from its bound first. With one end open the decade next to
 * the other is looked at; with both, none.
 * @param most at most so many, counted from the widest margin down
 */
export function preferredInside(
  { above, below }: TrueBounds,
  series: Series,
  own: OwnTolerance,
  most = Infinity,
): number[] {
  const upward = Math.max(series.tolerance, own.upward);
  const downward = Math.max(series.tolerance, own.downward);
  // Whoever writes the value into the circuit may leave the tolerance that stands there.
  const low = above === null ? null : above / (1 - downward);
  const high = below === null ? null : below / (1 + upward);
  const room = (value: number): number =>
    Math.min(low === null ? Infinity : value / low, high === null ? Infinity : high / value);
  return candidates(low, high, series)
    .filter((value) => room(value) > 1)
    .sort((a, b) => room(b) - room(a) || a - b)
    .slice(0, most);
}

/** Counted from the ends for a nominal, so that a decade of them is a decade of what may be listed. */
function candidates(low: number | null, high: number | null, series: Series): readonly number[] {
  const { values } = series;
  if (high !== null) return preferredValues(low ?? 0, high, low === null ? values.length : Infinity, series);
  return low === null ? [] : preferredValues(low, low * 10, Infinity, series);
}
