import { describe, expect, test } from 'vitest';
import type { CarRow } from '../../src/demo/car-row.js';
import { paintFor } from '../../src/demo/paint.js';
import { verdictTable } from '../../src/demo/verdict-table.js';
import { wrapWords } from '../../src/demo/wrap-words.js';

const rows: readonly CarRow[] = [
  {
    car: 'Sedge',
    verdict: 'no-violation-found',
    words: 'no violation found',
    rise: '915 ms',
    fall: '3.73 s',
    worst: 'Short.',
  },
  {
    car: 'A longer name',
    verdict: 'violation-found',
    words: 'violation found',
    rise: 'never',
    fall: 'never',
    worst:
      'The link stops at 94.34 % of the open-circuit voltage, which is not above the level of 95 % that the book wants.',
  },
];

describe('the table of verdicts', () => {
  const lines = verdictTable(rows, 90, paintFor(false)).split('\n');

  test('every column begins at the same place in every line', () => {
    const start = lines[0]?.indexOf('What matters most') ?? -1;
    expect(lines[2]?.indexOf('Short.')).toBe(start);
    expect(lines[3]?.indexOf('The link stops')).toBe(start);
    expect(lines[4]?.search(/\S/)).toBe(start);
    expect(lines[0]?.indexOf('Verdict')).toBe(lines[3]?.indexOf('violation found'));
  });

  test('no line is wider than the terminal and no word of a sentence is lost', () => {
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(90);
    const start = lines[0]?.indexOf('What matters most') ?? 0;
    expect(
      lines
        .slice(3)
        .map((line) => line.slice(start))
        .join(' '),
    ).toBe(rows[1]?.worst);
  });

  test('colour changes nothing but colour', () => {
    const coloured = verdictTable(rows, 90, paintFor(true));
    expect(coloured).toContain('\u001b[31mviolation found');
    expect(
      coloured
        .split('\u001b')
        .map((part, index) => (index === 0 ? part : part.replace(/^\[\d+m/, '')))
        .join(''),
    ).toBe(lines.join('\n'));
  });

  test('no verdict is painted green', () => {
    expect(verdictTable(rows, 90, paintFor(true))).not.toContain('\u001b[32m');
  });
});

test('wrapWords keeps a word that is longer than the line whole', () => {
  expect(wrapWords('a bb cccccc d', 4)).toEqual(['a bb', 'cccccc', 'd']);
});

test.each([
  ['it takes 3 s', ['it takes', '3 s']],
  ['it is 56.9 W, no', ['it is', '56.9 W,', 'no']],
  ['level 95 % it', ['level', '95 % it']],
  ['a 4.7 kΩ one', ['a 4.7 kΩ', 'one']],
])('wrapWords never parts a number from its unit: %j', (text, lines) => {
  expect(wrapWords(text, 9)).toEqual(lines);
});

test('wrapWords keeps every word, in order', () => {
  const text = rows[1]?.worst ?? '';
  for (const width of [1, 8, 20, 200]) expect(wrapWords(text, width).join(' ')).toBe(text);
});
