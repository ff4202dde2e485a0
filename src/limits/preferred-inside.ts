import { preferredValues, type Series } from '../circuit/e-series.js';

/** What a part's true value must stay between, both ends excluded; null: open. */
export interface TrueBounds {
  readonly above: number | null;
  readonly below: number | null;
}

/**
 * The values of a series that keep inside the bounds over the whole tolerance of the series, the one whose worst true value
 * is farthest (as a ratio) from its bound first. With one end open the decade next to the other is looked at; with both, none.
 * @param most at most so many, counted from the widest margin down
 */
export function preferredInside({ above, below }: TrueBounds, series: Series, most = Infinity): number[] {
  const { tolerance } = series;
  const room = (value: number): number =>
    Math.min(
      above === null ? Infinity : (value * (1 - tolerance)) / above,
      below === null ? Infinity : below / (value * (1 + tolerance)),
    );
  return candidates({ above, below }, series)
    .filter((value) => room(value) > 1)
    .sort((a, b) => room(b) - room(a) || a - b)
    .slice(0, most);
}

function candidates({ above, below }: TrueBounds, series: Series): readonly number[] {
  const { tolerance, values } = series;
  // Counted from the ends for a nominal, so that a decade of them is a decade of what may be listed.
  const low = above === null ? null : above / (1 - tolerance);
  const high = below === null ? null : below / (1 + tolerance);
  if (high !== null) return preferredValues(low ?? 0, high, low === null ? values.length : Infinity, series);
  return low === null ? [] : preferredValues(low, low * 10, Infinity, series);
}
