import type { Report } from '../../verify/report.js';
import { showFigure } from '../show-figure.js';
import { codeSpan } from './code-span.js';
import { escapeMarkdown } from './escape-markdown.js';
import { markdownTable } from './markdown-table.js';
import { prechargeFigures } from './precharge-figures.js';

/** The rise: its figures at the smallest, nominal and largest, and the order of closing that was judged. */
export function prechargeSection({ precharge, sequence }: Pick<Report, 'precharge' | 'sequence'>): string[] {
  const rows = prechargeFigures.map(([name, words]) => {
    const figure = precharge[name];
    return [words, showFigure(figure, 'min'), showFigure(figure, 'nominal'), showFigure(figure, 'max')];
  });
  const columns = [
    { title: 'Figure' },
    { title: 'smallest', align: 'right' },
    { title: 'nominal', align: 'right' },
    { title: 'largest', align: 'right' },
  ] as const;
  const resistor =
    precharge.resistor === undefined
      ? 'No resistor carries the rise.'
      : `The resistor is ${codeSpan(precharge.resistor)}.`;
  const whose =
    sequence.source === 'stated' ? 'The order as the team states it:' : 'No order is stated; the usual one is judged:';
  return ['## Pre-charge', resistor, markdownTable(columns, rows), whose, sequence.steps.map(stepInWords).join('\n')];
}

type Step = Report['sequence']['steps'][number];

function stepInWords(step: Step, index: number): string {
  const ids = (list: readonly string[]): string => list.map(codeSpan).join(', ');
  const acts = [
    step.release ? 'release' : '',
    step.close.length > 0 ? `close ${ids(step.close)}` : '',
    step.open.length > 0 ? `open ${ids(step.open)}` : '',
  ].filter((act) => act !== '');
  return `${index + 1}. ${escapeMarkdown(timeOf(step))}: ${acts.length > 0 ? acts.join('; ') : 'nothing moves'}`;
}

function timeOf({ at, after, when }: Step): string {
  if (at !== undefined) return `at ${at} s`;
  if (after !== undefined) return `${after} s later`;
  if (when === undefined) return 'at once';
  return `when the link ${when.falling ? 'has fallen' : 'has risen'} to ${Number((when.linkRatio * 100).toPrecision(6))} %`;
}
