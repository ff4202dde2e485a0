import type { Report } from '../../verify/report.js';
import { showQuantity } from '../show-quantity.js';
import { codeSpan } from './code-span.js';
import { escapeMarkdown } from './escape-markdown.js';
import { markdownTable } from './markdown-table.js';

/** Every bound on every part with its margin, then the window each part's value may lie in. */
export function limitsSection({ limits, windows }: Pick<Report, 'limits' | 'windows'>): string[] {
  const blocks: string[] = [];
  if (limits.length > 0) {
    const columns = [
      { title: 'Part' },
      { title: 'Limit' },
      { title: 'nominal may be', align: 'right' },
      { title: 'is', align: 'right' },
      { title: 'margin', align: 'right' },
      { title: 'holds' },
      { title: 'binds' },
      { title: 'serves' },
    ] as const;
    blocks.push('## Limits', markdownTable(columns, limits.map(limitRow)));
    const notes = notesOf(limits);
    if (notes.length > 0) blocks.push(notes.join('\n'));
  }
  if (windows.length > 0) {
    const columns = [{ title: 'Part' }, { title: 'Window of its nominal' }, { title: 'Preferred values inside' }];
    blocks.push('## Design windows', markdownTable(columns, windows.map(windowRow)));
  }
  return blocks;
}

/** Each note once, behind the limits that it is on. */
function notesOf(limits: Report['limits']): string[] {
  const names = new Map<string, Set<string>>();
  for (const { name, note } of limits) {
    if (note !== undefined) names.set(note, (names.get(note) ?? new Set()).add(name));
  }
  return Array.from(names, ([note, on]) => `- ${[...on].map(codeSpan).join(', ')}: ${escapeMarkdown(note)}`);
}

function limitRow(limit: Report['limits'][number]): string[] {
  const edge = limit.nominal ?? limit.value;
  return [
    limit.element === undefined ? '' : codeSpan(limit.element),
    codeSpan(limit.name),
    edge === null ? '–' : `${limit.bound === 'max' ? 'at most' : 'at least'} ${showQuantity(edge, limit.unit)}`,
    limit.present === null ? 'not stated' : showQuantity(limit.present, limit.unit),
    limit.margin === null ? '–' : `${Number((limit.margin * 100).toPrecision(3))} %`,
    limit.satisfied === null ? 'undetermined' : limit.satisfied ? 'yes' : 'no',
    limit.binding ? 'yes' : '',
    codeSpan(limit.rule),
  ];
}

function windowRow(window: Report['windows'][number]): string[] {
  const end = (value: number | null, open: string): string =>
    value === null ? open : showQuantity(value, window.unit);
  const range = window.empty
    ? 'empty'
    : window.min === null && window.max === null
      ? window.explanation === undefined
        ? 'not bounded'
        : 'no bound found'
      : `${end(window.min, 'no lower end')} to ${end(window.max, 'no upper end')}`;
  const explained = window.explanation === undefined ? range : `${range}: ${escapeMarkdown(window.explanation)}`;
  // The list can hold a decade of E24 values; the first ones have the widest margin.
  const preferred = window.preferred.slice(0, 6).map((value) => showQuantity(value, window.unit));
  return [codeSpan(window.element), explained, preferred.length > 0 ? preferred.join(', ') : '–'];
}
