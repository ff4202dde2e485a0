import type { Finding } from '../rules/finding.js';
import { showFigure, showQuantity } from '../render/index.js';
import type { Report } from '../verify/report.js';

/**
 * The one thing to know about a car, in one sentence with its number: what is violated and is no consequence of
 * something else, then what is open, then the tightest limit of a car without either.
 */
export function worstThing({ findings, limits, precharge }: Report): string {
  const binding = findings.filter(({ weight }) => weight === 'rule');
  const violated = binding.filter(({ status }) => status === 'violated');
  const causes = violated.filter(({ causedBy }) => (causedBy ?? []).length === 0);
  const [worst, ...others] = causes.length > 0 ? causes : violated;
  if (worst !== undefined) return `${worst.message}${others.length > 0 ? ` (and ${others.length} more)` : ''}`;

  const [open, ...more] = binding.filter(({ status }) => status === 'undetermined');
  if (open !== undefined) return `${open.message}${more.length > 0 ? ` (and ${more.length} more)` : ''}`;

  const [tightest] = limits.flatMap(knownMargin).sort((a, b) => a.margin - b.margin);
  if (tightest === undefined)
    return `The link gets to ${showFigure(precharge.steadyRatio, 'min')} or more.${adviceOf(findings)}`;
  return `Tightest: ${tightest.sentence}${adviceOf(findings)}`;
}

function knownMargin({ margin, nominal, present, bound, element, name, unit }: Report['limits'][number]) {
  // A setting has no unit; it is close to its bound on purpose and no part that drifts.
  if (margin === null || nominal === null || present === null || unit === '') return [];
  const edge = `${bound === 'max' ? 'may be at most' : 'must be at least'} ${showQuantity(nominal, unit)}`;
  return [{ margin, sentence: `${element ?? name} ${edge} and is ${showQuantity(present, unit)}.` }];
}

function adviceOf(findings: readonly Finding[]): string {
  const count = findings.filter(({ weight, status }) => weight === 'advice' && status === 'violated').length;
  return count === 0 ? '' : ` Advice: ${count}.`;
}
