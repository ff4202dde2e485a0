import type { Rise } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';

/** One function for all, so that limits that ask this of the same part share what has been computed. */
export function readSteadyRatio({ rise }: { readonly rise: Rise }): Figure {
  return rise.steadyRatio;
}
