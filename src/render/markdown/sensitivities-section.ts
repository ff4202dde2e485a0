import type { FigureAnswer, Report, TimeFigureAnswer } from '../../verify/report.js';
import { showQuantity } from '../show-quantity.js';
import { codeSpan } from './code-span.js';
import { markdownTable } from './markdown-table.js';
import { prechargeFigures } from './precharge-figures.js';
import { stateName } from './state-name.js';

/** Share of the largest change below which a part is not worth a reader's time; the report as JSON has it. */
const MINOR = 0.01;

/** Which parts move the figures most, where the report says so; nothing where it does not. */
export function sensitivitiesSection({ precharge, discharge }: Pick<Report, 'precharge' | 'discharge'>): string[] {
  const rows = [
    ...prechargeFigures.flatMap(([name, words]) => rowsOf(words, precharge[name])),
    ...discharge.flatMap((state) =>
      state.timeToLimit === undefined ? [] : rowsOf(`Time to the limit, ${stateName(state)}`, state.timeToLimit),
    ),
  ];
  if (rows.length === 0) return [];
  const columns = [
    { title: 'Figure' },
    { title: 'Part' },
    { title: 'at its low end', align: 'right' },
    { title: 'at its high end', align: 'right' },
  ] as const;
  return [
    '## What moves the figures most',
    'Each part alone, from its nominal value to the ends of its range, all others at nominal.',
    markdownTable(columns, rows),
  ];
}

function rowsOf(words: string, { sensitivities = [], unit }: FigureAnswer | TimeFigureAnswer): string[][] {
  const sizes = sensitivities.map(({ low, high }) => Math.max(Math.abs(low ?? 0), Math.abs(high ?? 0)));
  const least = MINOR * Math.max(...sizes);
  return sensitivities
    .filter(({ low, high }, index) => low === null || high === null || (sizes[index] ?? 0) >= least)
    .map(({ element, low, high }, index) => [
      index === 0 ? words : '',
      codeSpan(element),
      change(low, unit),
      change(high, unit),
    ]);
}

/** With its sign; a difference of temperatures is in kelvin. */
function change(value: number | null, unit: string): string {
  if (value === null) return 'never';
  const size = showQuantity(Math.abs(value), unit === '°C' ? 'K' : unit);
  return value === 0 ? size : `${value < 0 ? '−' : '+'}${size}`;
}
