import type { EventSummary } from '../../verify/summary/event-summary-schema.js';
import { lookPlace } from './look-place.js';
import { csvLine, type CsvForm, PLAIN_CSV } from '../csv/csv-cell.js';

/** An event's summary as one long table: what a section says of a subject, one thing a line. */
export function summaryCsv(summary: EventSummary, form: CsvForm = PLAIN_CSV): string {
  const name = ({ id, index }: { id: string | number | null; index: number }) => id ?? `no. ${index + 1}`;
  const lines: (string | number)[][] = [
    ['section', 'subject', 'item', 'value'],
    ...Object.entries(summary.summary).map(([outcome, count]) => ['verdicts', outcome, 'cars', count]),
    ...summary.mistakes.map(({ rule, cars }) => ['mistakes', rule, 'cars', cars]),
    ...summary.rules.flatMap(({ rule, violated, undetermined, met, notApplicable }) =>
      Object.entries({ violated, undetermined, met, notApplicable }).map(([status, count]) => [
        'rules',
        rule,
        status,
        count,
      ]),
    ),
    ...summary.margins.map((margin) => [
      'margins',
      name(margin),
      margin.element === undefined ? margin.limit : `${margin.limit} of ${margin.element}`,
      margin.margin,
    ]),
    ...summary.anotherLook.map((look) => [
      'another-look',
      name(look),
      look.reason,
      [look.rules.join(' '), ...look.missing.map((place, k) => lookPlace(place, look.missingIn[k]))].join('; '),
    ]),
  ];
  return lines.map((cells) => csvLine(cells, form)).join('');
}
