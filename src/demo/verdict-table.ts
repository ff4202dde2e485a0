import type { CarRow } from './car-row.js';
import type { Ink, Paint } from './paint.js';
import { wrapWords } from './wrap-words.js';

const INKS: Readonly<Record<CarRow['verdict'], Ink>> = {
  'violation-found': 'red',
  undetermined: 'yellow',
  'no-violation-found': 'plain',
};
const GAP = '  ';

/**
 * The table of verdicts in plain characters. The last column takes what is left of `width` and wraps at words; its
 * further lines stand below it, so that no number is cut off.
 */
export function verdictTable(rows: readonly CarRow[], width: number, paint: Paint): string {
  const wide = (title: string, cell: 'car' | 'words' | 'rise' | 'fall'): number =>
    Math.max(title.length, ...rows.map((row) => row[cell].length));
  const car = wide('Car', 'car');
  const words = wide('Verdict', 'words');
  const rise = wide('Rise', 'rise');
  const fall = wide('Fall', 'fall');
  const before = car + words + rise + fall + 4 * GAP.length;
  const rest = Math.max(32, width - before);

  const heading = [
    'Car'.padEnd(car),
    'Verdict'.padEnd(words),
    'Rise'.padStart(rise),
    'Fall'.padStart(fall),
    'What matters most',
  ].join(GAP);
  const wrapped = rows.map(({ worst }) => wrapWords(worst, rest));
  const longest = Math.max(0, ...wrapped.flat().map(({ length }) => length));
  const body = rows.flatMap((row, index) => {
    const [first = '', ...further] = wrapped[index] ?? [];
    // Padded before it is painted: the colour's own characters have no width.
    const verdict = paint(row.words.padEnd(words), INKS[row.verdict]);
    return [
      [row.car.padEnd(car), verdict, row.rise.padStart(rise), row.fall.padStart(fall), first].join(GAP),
      ...further.map((line) => ' '.repeat(before) + line),
    ];
  });
  return [paint(heading, 'bold'), '-'.repeat(before + longest), ...body].join('\n');
}
