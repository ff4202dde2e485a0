import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CsvReader, type CsvRecord } from '../../../src/verify/rows/csv-reader.js';
import { csvLine } from '../../../src/render/csv/csv-cell.js';

const LIMITS = { characters: 200, lines: 5 };

/** The records of a text that arrives in pieces of that many characters. */
function records(text: string, piece = text.length || 1, limits = LIMITS): CsvRecord[] {
  const reader = new CsvReader(limits);
  const found: CsvRecord[] = [];
  for (let at = 0; at < text.length; at += piece) found.push(...reader.push(text.slice(at, at + piece)));
  return [...found, ...reader.end()];
}
const cells = (text: string) =>
  records(text).map(({ cells: read, refused }) => (refused === undefined ? read : refused));

describe('tables as spreadsheets write them', () => {
  it.each<[string, string, (readonly string[])[]]>([
    [
      'commas',
      'a,b\r\n1,2\r\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'semicolons',
      'a;b\r\n1,5;2\r\n',
      [
        ['a', 'b'],
        ['1,5', '2'],
      ],
    ],
    [
      'tabs',
      'a\tb\n1\t2',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a stated separator',
      'sep=;\r\na;b\r\n1;2',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a byte order mark',
      '\uFEFFa,b\n1,2',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'line feeds alone',
      'a,b\n1,2\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'carriage returns alone',
      'a,b\r1,2\r',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'quoted cells',
      '"a","b, c"\n"say ""hi""",2',
      [
        ['a', 'b, c'],
        ['say "hi"', '2'],
      ],
    ],
    [
      'a line break in a cell',
      'a,b\n"1\n2",3\n',
      [
        ['a', 'b'],
        ['1\n2', '3'],
      ],
    ],
    [
      'spaces round quotes',
      'a,b\n "1" , "2"\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a quote inside a cell',
      'a,b\n5" pipe,2\n',
      [
        ['a', 'b'],
        ['5" pipe', '2'],
      ],
    ],
    [
      'empty lines and lines of separators',
      'a,b\n\n,\n1,2\n,,\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a separator in quotes in the first line',
      '"a,b,c";d\n1;2',
      [
        ['a,b,c', 'd'],
        ['1', '2'],
      ],
    ],
    ['no line end', 'a', [['a']]],
    ['nothing', '', []],
  ])('%s', (_name, text, wanted) => {
    expect(cells(text)).toEqual(wanted);
    for (const piece of [1, 2, 3]) expect(records(text, piece)).toEqual(records(text));
  });

  it('say on which line each record begins', () => {
    const found = records('sep=,\na,b\n\n"1\n2",3\r\n4,5');
    expect(found.map(({ line }) => line)).toEqual([2, 4, 6]);
    expect(found.map(({ lastLine }) => lastLine)).toEqual([undefined, 5, undefined]);
  });
});

describe('a record that cannot be read', () => {
  it('is refused in its place, and harms no other', () => {
    expect(records('a,b\n"open,1\nnext,2\nlast,3')).toEqual([
      { line: 1, cells: ['a', 'b'] },
      { line: 2, cells: ['open,1'], refused: 'unclosed-quote' },
      { line: 3, cells: ['next', '2'] },
      { line: 4, cells: ['last', '3'] },
    ]);
    const long = `a,b\n${'x'.repeat(500)},1\nok,2\n`;
    for (const piece of [1, 7, 1000]) {
      expect(records(long, piece)).toEqual([
        { line: 1, cells: ['a', 'b'] },
        { line: 2, cells: [`${'x'.repeat(40)}…`], refused: 'too-long' },
        { line: 3, cells: ['ok', '2'] },
      ]);
    }
  });

  it.each([
    // Read to the next quote, each would be one row of as many cells as there are headings, or of one more or fewer.
    ['the same column', 'k;m;n', 'A;"open;1\nB;"two; three";2\n'],
    ['the column before', 'k;m;n', 'A;"open;1\n"B; b";two;2\n'],
    ['the column behind', 'k;m;n', 'A;"open;1\nB;two;"three"\n'],
    ['a row further down', 'k;m;n', 'A;"open;1\nC;c;c\nB;"two";2\n'],
  ])('is one whose quote would close where a cell of a later row opens its own: %s', (_where, head, rows) => {
    const text = `${head}\n${rows}`;
    for (const piece of [1, 3, 100]) {
      const [, open, ...others] = records(text, piece);
      expect(open).toEqual({ line: 2, cells: ['A', 'open;1'], refused: 'unclosed-quote' });
      const lines = rows.trimEnd().split('\n').slice(1);
      expect(others.map(({ line, refused }) => [line, refused])).toEqual(lines.map((_, k) => [3 + k, undefined]));
      expect(others.map(({ cells: read }) => read.length)).toEqual(lines.map(() => 3));
    }
  });

  it('is none with text behind a closing quote of its own line, or spaces behind one of several lines', () => {
    expect(cells('a,b\n"5" pipe,2\n"1\n2" ,3')).toEqual([
      ['a', 'b'],
      ['5 pipe', '2'],
      ['1\n2', '3'],
    ]);
  });

  it('is answered with the cells ahead of it, and how the broken one begins', () => {
    const [, open] = records('a;b;c;d\nA1;"x; y";"open; z\nnext;1;2;3');
    expect(open).toEqual({ line: 2, cells: ['A1', 'x; y', 'open; z'], refused: 'unclosed-quote' });
    // 39 letters and one of two UTF-16 units, which is not cut in half.
    const [, wide] = records(`a,b\r\nB2,"${'x'.repeat(39)}𝄞z\r\n`);
    expect(wide?.cells).toEqual(['B2', `${'x'.repeat(39)}…`]);
    const [, long] = records(`a,b\n1,${'x'.repeat(500)}\n`, 7);
    expect(long).toEqual({ line: 2, cells: ['1', `${'x'.repeat(40)}…`], refused: 'too-long' });
  });

  it('costs one line, however many follow', () => {
    const found = records(`a,b\n"open,1\n${'x,1\n'.repeat(20_000)}`, 65_536);
    expect(found).toHaveLength(20_002);
    expect(found.filter(({ refused }) => refused !== undefined)).toEqual([
      { line: 2, cells: ['open,1'], refused: 'unclosed-quote' },
    ]);
  });
});

describe('what we write', () => {
  it('reads back as it was, in any pieces (RFC 4180)', () => {
    const text = fc.string({
      unit: fc.constantFrom('a', '1', ',', ';', '"', '\n', '\r', ' ', 'µ', '\t', '.'),
      maxLength: 8,
    });
    // Formulas gain an apostrophe and outer spaces are kept by quotes; neither is the reader's to undo.
    const harmless = text.filter((one) => !/^[=+\-@\t\r\n]/.test(one) && !/[\r\n]$/.test(one));
    const row = fc.array(harmless, { minLength: 2, maxLength: 4 }).map((list) => ['k', ...list]);
    fc.assert(
      fc.property(row, fc.integer({ min: 1, max: 9 }), (list, piece) => {
        const heading = ['x', 'y'];
        const lastLine = 2 + (list.join(' ').match(/\r\n|\r|\n/g) ?? []).length;
        expect(records(csvLine(heading) + csvLine(list), piece, { characters: 1000, lines: 100 })).toEqual([
          { line: 1, cells: heading },
          { line: 2, cells: list, ...(lastLine === 2 ? {} : { lastLine }) },
        ]);
      }),
      { numRuns: 300 },
    );
  });
});
