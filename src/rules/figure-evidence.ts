import type { Figure } from '../facts/figure.js';

/** The numbers of a figure as evidence: SI, null where there is none. */
export function figureEvidence(figure: Figure): Readonly<Record<string, unknown>> {
  const { nominal, min, max, reason } = figure;
  return reason === undefined ? { nominal, min, max } : { nominal, min, max, reason };
}
