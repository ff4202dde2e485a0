import { missingLabel } from '../missing-label.js';
import type { EventSummary } from '../../verify/summary/event-summary-schema.js';
import { codeSpan } from '../markdown/code-span.js';
import { escapeMarkdown } from '../markdown/escape-markdown.js';
import { markdownTable } from '../markdown/markdown-table.js';
import { lookPlace } from './look-place.js';
import { showQuantity } from '../show-quantity.js';
import { verdictWords } from '../verdict-words.js';

/** An event's summary as a page to read. */
export function summaryMarkdown(summary: EventSummary): string {
  return `${[
    '# Summary of the event',
    summary.summary.count === 1 ? 'One car was answered.' : `${summary.summary.count} cars were answered.`,
    verdicts(summary),
    section(
      'The commonest mistakes',
      mistakes(summary),
      summary.rules.length === 0 ? UNJUDGED : 'No rule is violated.',
      'Causes only: what follows from another mistake of the same car is left out here, and so is advice.',
    ),
    section('Closest margins', margins(summary), 'No limit with a known margin.'),
    section('Cars that need another look', looks(summary), 'None.'),
    section(
      'Rule by rule',
      rules(summary),
      UNJUDGED,
      'Every finding counts, also one that follows from another mistake of the same car.',
    ),
    `## Cautions\n\n${summary.cautions.map(({ text }) => `- ${escapeMarkdown(text)}`).join('\n')}`,
  ].join('\n\n')}\n`;
}

const UNJUDGED = 'No rule was judged.';

/** @param note what a table counts */
function section(title: string, table: string | undefined, otherwise: string, note?: string): string {
  const parts = table === undefined ? [otherwise] : note === undefined ? [table] : [note, table];
  return [`## ${title}`, ...parts].join('\n\n');
}

function verdicts({ summary }: EventSummary): string {
  const rows = [
    [verdictWords['violation-found'].short, summary.violationFound],
    [verdictWords.undetermined.short, summary.undetermined],
    [verdictWords['no-violation-found'].short, summary.noViolationFound],
    ['could not be judged', summary.errors],
  ] as const;
  return markdownTable(
    [{ title: 'Verdict' }, { title: 'Cars', align: 'right' }],
    rows.map(([words, count]) => [words, String(count)]),
  );
}

function mistakes({ mistakes: list }: EventSummary): string | undefined {
  if (list.length === 0) return undefined;
  return markdownTable(
    [{ title: 'Mistake' }, { title: 'Cars', align: 'right' }, { title: 'Which' }],
    list.map(({ title, cars, ids }) => {
      const more = cars > ids.length ? ` and ${cars - ids.length} more` : '';
      return [`not kept: ${escapeMarkdown(title)}`, String(cars), `${ids.map(carName).join(', ')}${more}`];
    }),
  );
}

function margins({ margins: list }: EventSummary): string | undefined {
  if (list.length === 0) return undefined;
  return markdownTable(
    [
      { title: 'Car' },
      { title: 'Margin', align: 'right' },
      { title: 'Is', align: 'right' },
      { title: 'Edge', align: 'right' },
      { title: 'Limit' },
    ],
    list.map(({ id, index, margin, present, nominal, unit, limit, element }) => [
      nameOf(id, index),
      `${(margin * 100).toFixed(1)} %`,
      escapeMarkdown(showQuantity(present, unit)),
      escapeMarkdown(showQuantity(nominal, unit)),
      `${codeSpan(limit)}${element === undefined ? '' : ` of ${codeSpan(element)}`}`,
    ]),
  );
}

type Look = EventSummary['anotherLook'][number];

const REASONS: Readonly<Record<Look['reason'], string>> = {
  problem: 'could not be judged',
  'violation-found': verdictWords['violation-found'].short,
  undetermined: verdictWords.undetermined.short,
  'close-margin': 'close margin',
};

function looks({ anotherLook, anotherLookCount }: EventSummary): string | undefined {
  if (anotherLook.length === 0) return undefined;
  const table = markdownTable(
    [{ title: 'Car' }, { title: 'Why' }, { title: 'What' }],
    anotherLook.map(({ id, index, reason, rules: about, missing, missingIn }) => [
      nameOf(id, index),
      REASONS[reason],
      whatOf(
        reason,
        about,
        missing,
        missing.map((place, k) => lookPlace(place, missingIn[k], codeSpan)),
      ),
    ]),
  );
  const hidden = anotherLookCount - anotherLook.length;
  return hidden === 0 ? table : `${table}\n\nAnd ${hidden} more.`;
}

function whatOf(
  reason: Look['reason'],
  about: readonly string[],
  missing: readonly string[],
  places: readonly string[],
): string {
  const what = about.map(codeSpan).join(', ');
  if (places.length === 0) return what;
  const open = missingLabel(missing) === 'Hangs on' ? 'hangs on' : 'not stated:';
  return `${what}; ${reason === 'problem' ? 'faults in' : open} ${places.join(', ')}`;
}

function rules({ rules: list }: EventSummary): string | undefined {
  if (list.length === 0) return undefined;
  const columns = ['Violated', 'Undetermined', 'Met'].map((title) => ({ title, align: 'right' as const }));
  return markdownTable(
    [...columns, { title: 'Rule' }],
    list.map(({ title, weight, violated, undetermined, met }) => [
      String(violated),
      String(undetermined),
      String(met),
      `${escapeMarkdown(title)}${weight === 'advice' ? ' (advice)' : ''}`,
    ]),
  );
}

function nameOf(id: string | number | null, index: number): string {
  return id === null ? `no. ${index + 1}` : carName(id);
}

function carName(id: string | number | null): string {
  return id === null ? 'without a name' : escapeMarkdown(String(id));
}
