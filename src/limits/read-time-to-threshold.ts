import type { Rise } from '../facts/facts.js';
import type { TimeFigure } from '../facts/figure.js';

/** One function for all, so that limits that ask this of the same part share what has been computed. */
export function readTimeToThreshold({ rise }: { readonly rise: Rise }): TimeFigure {
  return rise.timeToThreshold;
}
