import type { Report } from '../../verify/report.js';
import { showQuantity } from '../show-quantity.js';
import { escapeMarkdown } from './escape-markdown.js';

/** What to measure on the real car, what to expect, and what another reading means. */
export function carTestsSection(tests: Report['carTests']): string[] {
  if (tests.length === 0) return [];
  const blocks = tests.map(({ state, action, measure, unit, expect, otherwise }) => {
    const ends = [
      expect.min === null ? '' : `at least ${showQuantity(expect.min, unit)}`,
      expect.max === null ? '' : `at most ${showQuantity(expect.max, unit)}`,
    ].filter((end) => end !== '');
    return [
      `- ${escapeMarkdown(state)}: ${escapeMarkdown(action)} Measure: ${escapeMarkdown(measure)} Expect ${ends.join(', ')}.`,
      ...otherwise.map(({ reading, means }) => `  - ${escapeMarkdown(reading)}: ${escapeMarkdown(means)}`),
    ].join('\n');
  });
  return ['## On the car', blocks.join('\n')];
}
