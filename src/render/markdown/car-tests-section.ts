import type { Report } from '../../verify/report.js';
import { showQuantity } from '../show-quantity.js';
import { escapeMarkdown } from './escape-markdown.js';

/** What to measure on the real car, what to expect, and what another reading means. */
export function carTestsSection(tests: Report['carTests']): string[] {
  if (tests.length === 0) return [];
  const blocks = tests.map(({ state, action, measure, unit, expect, otherwise }) =>
    [
      `- ${escapeMarkdown(state)}: ${escapeMarkdown(action)} Measure: ${escapeMarkdown(measure)} Expect ${expected(expect, unit)}.`,
      ...otherwise.map(({ reading, means }) => `  - ${escapeMarkdown(reading)}: ${escapeMarkdown(means)}`),
    ].join('\n'),
  );
  return ['## On the car', blocks.join('\n')];
}

function expected({ min, max }: Report['carTests'][number]['expect'], unit: string): string {
  if (unit === 'clicks' && max === 0) return 'no click';
  return [
    ...(min === null ? [] : [`at least ${showQuantity(min, unit)}`]),
    ...(max === null ? [] : [`at most ${showQuantity(max, unit)}`]),
  ].join(', ');
}
