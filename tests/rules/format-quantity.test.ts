import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillTemplate } from '../../src/rules/fill-template.js';
import { formatAgainst } from '../../src/rules/format-against.js';
import { formatQuantity, type Unit } from '../../src/rules/format-quantity.js';

const rows: ReadonlyArray<readonly [number, Unit, string]> = [
  [1412, 'Ω', '1.412 kΩ'],
  [2473.684, 'Ω', '2.474 kΩ'],
  [0.95021, '%', '95.02 %'],
  [2.3, 's', '2.3 s'],
  [0.00068, 'F', '680 µF'],
  [470e-9, 'F', '470 nF'],
  [999.96, 'Ω', '1 kΩ'],
  [47_000, 'Ω', '47 kΩ'],
  [1e6, 'Ω', '1 MΩ'],
  [0.02, 's', '20 ms'],
  [5000, 's', '5000 s'],
  [-273.15, '°C', '-273.1 °C'],
  [1500, '°C', '1500 °C'],
  [0, 'V', '0 V'],
  [-0, 'V', '0 V'],
  [-0.4, 'A', '-400 mA'],
  [1e-13, 'A', '0.1 pA'],
  [2.5e10, 'Ω', '25 GΩ'],
  [Infinity, 's', 'without limit'],
];

describe('formatQuantity', () => {
  it.each(rows)('writes %d %s as %s', (value, unit, text) => {
    expect(formatQuantity(value, unit)).toBe(text);
  });

  it('says the value to its digits, whatever the prefix', () => {
    const prefixes: Readonly<Record<string, number>> = {
      p: 1e-12,
      n: 1e-9,
      µ: 1e-6,
      m: 1e-3,
      '': 1,
      k: 1e3,
      M: 1e6,
      G: 1e9,
    };
    fc.assert(
      fc.property(fc.double({ min: 1e-11, max: 1e11, noNaN: true }), (value) => {
        const [, digits = '', prefix = ''] = /^([\d.]+) (.?)Ω$/.exec(formatQuantity(value, 'Ω')) ?? [];
        // Half a unit of the fourth digit.
        expect(Math.abs((Number(digits) * (prefixes[prefix] ?? NaN)) / value - 1)).toBeLessThan(5.1e-4);
        expect(digits.replace('.', '').replace(/^0+/, '').length).toBeLessThanOrEqual(4);
      }),
      { seed: 4 },
    );
  });
});

describe('formatAgainst', () => {
  it('adds digits until a value and its limit read apart', () => {
    expect(formatAgainst(5.00004, 5, 's')).toEqual({ value: '5.00004 s', limit: '5 s' });
    expect(formatAgainst(0.9499999, 0.95, '%')).toEqual({ value: '94.99999 %', limit: '95 %' });
    expect(formatAgainst(4.2, 5, 's')).toEqual({ value: '4.2 s', limit: '5 s' });
    expect(formatAgainst(5, 5, 's')).toEqual({ value: '5 s', limit: '5 s' });
  });
});

describe('fillTemplate', () => {
  it('puts every value in, as often as it is named', () => {
    expect(fillTemplate('{a} and {b}, {a}.', { a: 1, b: 'two' })).toBe('1 and two, 1.');
  });

  it('leaves nothing unfilled', () => {
    expect(() => fillTemplate('{a}', {})).toThrow('wants a value for {a}');
  });

  it('does not fill what a value happens to hold', () => {
    expect(fillTemplate('{a}.', { a: '{b}' })).toBe('{b}.');
  });
});
