import { describe, expect, it } from 'vitest';
import { csvCell, csvLine } from '../../src/render/csv/csv-cell.js';

// OWASP, "CSV Injection": cells that begin with = + - @ tab or carriage return can be taken for a formula.
describe('text that a spreadsheet could take for a formula', () => {
  it.each([
    '=1+1',
    '=HYPERLINK("http://x","y")',
    '+1+1',
    '-1+1',
    '-2 kΩ',
    '@SUM(A1)',
    '\t=1',
    '\r=1',
    '+49 30 1234',
    '-',
    '＝1',
  ])('%j begins with an apostrophe', (text) => {
    expect(csvCell(text).replace(/^"/, '').startsWith("'")).toBe(true);
  });

  it.each(['-5', '+5', '-0.5', '-0,5', '-1e-3', '5', '0', '-.5'])('%j is a number and left alone', (text) => {
    expect(csvCell(text).replaceAll('"', '')).toBe(text);
  });

  it.each(['Aldermoor 7', 'a=b', '5-6', 'x@y', "'quoted"])('%j is harmless', (text) => {
    expect(csvCell(text)).toBe(text);
  });
});

describe('cells', () => {
  it.each<[Parameters<typeof csvCell>[0], string]>([
    [2473.684210526316, '2473.68421'],
    [-3, '-3'],
    [-0, '0'],
    [1.2e-7, '0.00000012'],
    [-1.25e-9, '-0.00000000125'],
    [1.5e21, '1500000000000000000000'],
    [null, ''],
    [undefined, ''],
    [true, 'true'],
    ['a,b', '"a,b"'],
    ['say "hi"', '"say ""hi"""'],
    ['two\nlines', '"two\nlines"'],
    [' outer ', '" outer "'],
  ])('%j is %j', (value, text) => {
    expect(csvCell(value)).toBe(text);
  });

  it('may have decimal commas between semicolons', () => {
    expect(csvLine([0.5, 'a,b', 'c;d'], { separator: ';', decimal: 'comma' })).toBe('0,5;a,b;"c;d"\r\n');
    expect(csvLine([0.5], { separator: ',', decimal: 'comma' })).toBe('"0,5"\r\n');
  });
});
