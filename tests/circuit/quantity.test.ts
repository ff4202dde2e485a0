import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boundedQuantities, type QuantityName, readQuantity } from '../../src/circuit/index.js';
import './seed.js';

type Valid = readonly [QuantityName, unknown, number];
type Invalid = readonly [QuantityName, unknown, string];

// Prefixes and letters by IEC 60062 and the SI brochure; the spellings of the units are this project's contract.
const valid: readonly Valid[] = [
  // The rows on which general-purpose unit libraries were seen to fail.
  ['resistance', '47 kΩ', 47_000],
  ['resistance', '10 MΩ', 1e7],
  ['resistance', '3.3 mΩ', 0.0033],
  ['capacitance', '680 uF', 0.00068],
  ['capacitance', '680 \u00B5F', 0.00068],
  ['capacitance', '680 \u03BCF', 0.00068],
  ['resistance', '47k', 47_000],
  ['resistance', '4k7', 4_700],
  ['resistance', '4R7', 4.7],
  ['resistance', '1.5k', 1_500],
  // Plain numbers are SI.
  ['resistance', 0, 0],
  ['resistance', -0, 0],
  ['capacitance', 5e-4, 0.0005],
  ['temperature', -40, -40],
  // Units with and without a space, and the many spaces of a word processor.
  ['resistance', '47kΩ', 47_000],
  ['resistance', '  47 \u2126 ', 47],
  ['resistance', '47 kohm', 47_000],
  ['resistance', '47 kOhms', 47_000],
  ['resistance', '47 MOhm', 47e6],
  ['resistance', '47 mohm', 0.047],
  ['resistance', '47\u00A0kΩ', 47_000],
  ['resistance', '47\u202FkΩ\u00A0', 47_000],
  ['resistance', '1 GΩ', 1e9],
  ['resistance', '47 M', 47e6],
  ['resistance', '1.5e3 Ω', 1_500],
  ['resistance', '.5 Ω', 0.5],
  ['resistance', '5. Ω', 5],
  ['resistance', '+5 Ω', 5],
  // Letter codes: the letter stands for the decimal point.
  ['resistance', '2R2', 2.2],
  ['resistance', 'R47', 0.47],
  ['resistance', '0R', 0],
  ['resistance', '2M2', 2.2e6],
  ['resistance', '2G2', 2.2e9],
  ['resistance', '4L7', 0.0047],
  ['resistance', '47R', 47],
  ['resistance', '4K7', 4_700],
  ['capacitance', '680u', 0.00068],
  ['capacitance', '6p8', 6.8e-12],
  ['capacitance', '4n7', 4.7e-9],
  ['capacitance', '100n', 1e-7],
  ['capacitance', '1m5', 0.0015],
  ['capacitance', '4\u00B57', 4.7e-6],
  ['capacitance', '4\u03BC7', 4.7e-6],
  ['capacitance', '4F7', 4.7],
  ['capacitance', '2 mF', 0.002],
  ['time', '5 ms', 0.005],
  ['time', '250ms', 0.25],
  ['time', '2 s', 2],
  ['voltage', '-1.2 kV', -1_200],
  ['voltage', '\u2212400 V', -400],
  ['current', '20 mA', 0.02],
  ['current', '1 kA', 1_000],
  ['energy', '90 J', 90],
  ['energy', '1.2 kJ', 1_200],
  ['power', '50 W', 50],
  ['power', '250 mW', 0.25],
  ['temperature', '40 °C', 40],
  ['temperature', '40\u2103', 40],
  ['temperature', '-10 °C', -10],
  ['thermalResistance', '2.5 K/W', 2.5],
  ['thermalResistance', '500 mK/W', 0.5],
  ['thermalResistance', '2.5 °C/W', 2.5],
  ['heatCapacity', '40 J/K', 40],
  ['heatCapacity', '1.1 kJ/K', 1_100],
  ['length', '15 mm', 0.015],
  ['length', '2 cm', 0.02],
  ['length', '1 m', 1],
  ['ratio', 1.5, 1.5],
  ['ratio', '0.95', 0.95],
  ['fraction', '95 %', 0.95],
  ['fraction', '95%', 0.95],
  ['tolerance', '5 %', 0.05],
];

const invalid: readonly Invalid[] = [
  ['resistance', '', 'empty-quantity'],
  ['resistance', ' \u00A0 ', 'empty-quantity'],
  ['resistance', '1,5 kΩ', 'decimal-comma'],
  ['resistance', '47,000 Ω', 'decimal-comma'],
  ['resistance', '47000', 'unit-missing'],
  ['resistance', '1e3', 'unit-missing'],
  ['resistance', '47m', 'unit-missing'],
  ['resistance', '4m7', 'unit-missing'],
  ['voltage', '5 k', 'unit-missing'],
  ['voltage', '400', 'unit-missing'],
  ['time', '5 m', 'unit-missing'],
  ['capacitance', '47k', 'unit-missing'],
  ['resistance', '47 F', 'wrong-unit'],
  ['resistance', '47 kV', 'wrong-unit'],
  ['capacitance', '680 uH', 'unknown-unit'],
  ['capacitance', '680 Ω', 'wrong-unit'],
  ['voltage', '5 A', 'wrong-unit'],
  ['resistance', '5 %', 'wrong-unit'],
  ['temperature', '313 K', 'unit-missing'],
  ['temperature', '40 mC', 'unknown-unit'],
  ['ratio', '5 V', 'wrong-unit'],
  ['ratio', '5 apples', 'unknown-unit'],
  ['resistance', '47 kOHMS!', 'unknown-unit'],
  ['resistance', '47 000 Ω', 'not-a-quantity'],
  ['resistance', '1.2.3 Ω', 'not-a-quantity'],
  ['resistance', '4k7J', 'unknown-unit'],
  ['resistance', 'k', 'not-a-quantity'],
  ['resistance', 'R', 'not-a-quantity'],
  ['resistance', 'Ω', 'not-a-quantity'],
  ['resistance', '.', 'not-a-quantity'],
  ['resistance', 'NaN', 'not-a-quantity'],
  ['resistance', 'Infinity', 'not-a-quantity'],
  ['resistance', '0x10 Ω', 'unknown-unit'],
  ['resistance', `${'1'.repeat(64)} Ω`, 'not-a-quantity'],
  ['resistance', Number.NaN, 'not-a-quantity'],
  ['resistance', Number.POSITIVE_INFINITY, 'out-of-bounds'],
  ['resistance', Number.NEGATIVE_INFINITY, 'out-of-bounds'],
  ['resistance', '1e999 Ω', 'out-of-bounds'],
  ['resistance', -1, 'out-of-bounds'],
  ['resistance', '-4k7', 'out-of-bounds'],
  ['resistance', 1.1e12, 'out-of-bounds'],
  ['capacitance', 0, 'out-of-bounds'],
  ['capacitance', 1001, 'out-of-bounds'],
  ['voltage', 100_001, 'out-of-bounds'],
  ['time', '1e8 s', 'out-of-bounds'],
  ['positiveVoltage', 0, 'out-of-bounds'],
  ['temperature', -274, 'out-of-bounds'],
  ['fraction', '101 %', 'out-of-bounds'],
  ['tolerance', 1, 'out-of-bounds'],
  ['resistance', null, 'wrong-type'],
  ['resistance', undefined, 'wrong-type'],
  ['resistance', true, 'wrong-type'],
  ['resistance', [47], 'wrong-type'],
  ['resistance', {}, 'wrong-type'],
];

describe('readQuantity reads', () => {
  test.each(valid)('%s %j as %d', (name, input, value) => {
    const reading = readQuantity(input, name);
    // Object.is: the very same double as the decimal number in SI, and never -0.
    expect('value' in reading && Object.is(reading.value, value), JSON.stringify(reading)).toBe(true);
  });
});

describe('readQuantity refuses', () => {
  test.each(invalid)('%s %j as %s', (name, input, code) => {
    const reading = readQuantity(input, name);
    expect(reading).toMatchObject({ code });
    if ('value' in reading) return;
    expect(reading.detail).toMatch(/^[^\n]+\.$/);
    expect(reading.accepted).not.toBe('');
  });

  test('a wrong unit by naming both quantities', () => {
    expect(readQuantity('47 F', 'resistance')).toMatchObject({
      detail: '`47 F` is a capacitance; a resistance is wanted.',
    });
  });

  test('an unknown unit by what it should measure, whatever the bounds', () => {
    for (const name of ['resistance', 'positiveResistance'] as const) {
      expect(readQuantity('47 q', name)).toMatchObject({ detail: '`q` is not a unit of resistance.' });
    }
    expect(readQuantity('5 apples', 'fraction')).toMatchObject({ detail: '`apples` is not a unit of ratio.' });
  });

  test('an unclear m by saying how to write milli and mega', () => {
    const reading = readQuantity('47m', 'resistance');
    expect('detail' in reading && reading.detail).toContain('milli or mega');
  });
});

describe('readQuantity and its bounds', () => {
  const names = Object.keys(boundedQuantities) as QuantityName[];

  test.each(names)('%s: its own example can be read', (name) => {
    expect(readQuantity(boundedQuantities[name].example, name)).toHaveProperty('value');
  });

  test.each(names)('%s: ends are accepted unless they are excluded, what lies beyond is not', (name) => {
    const bounded: { minimum: number; maximum: number; aboveMinimum?: true; belowMaximum?: true } =
      boundedQuantities[name];
    const accepted = (value: number) => 'value' in readQuantity(value, name);
    expect(accepted(bounded.minimum)).toBe(bounded.aboveMinimum !== true);
    expect(accepted(bounded.maximum)).toBe(bounded.belowMaximum !== true);
    expect(accepted(bounded.minimum - 1)).toBe(false);
    expect(accepted(bounded.maximum * 1.001)).toBe(false);
  });
});

describe('readQuantity, for any decimal number', () => {
  const digits = fc.integer({ min: 1, max: 999_999 });
  const prefixes = fc.constantFrom<readonly [string, number]>(
    ['p', -12],
    ['n', -9],
    ['u', -6],
    ['\u00B5', -6],
    ['m', -3],
    ['', 0],
    ['k', 3],
    ['M', 6],
  );

  test('gives the double nearest to the decimal value, whatever the prefix', () => {
    fc.assert(
      fc.property(digits, prefixes, fc.constantFrom('', ' '), (number, [prefix, power], space) => {
        const reading = readQuantity(`${number}${space}${prefix}Ω`, 'resistance');
        return 'value' in reading && reading.value === Number(`${number}e${power}`);
      }),
    );
  });

  test('reads a letter code as the same number with a point and a unit', () => {
    fc.assert(
      fc.property(fc.nat(999), fc.nat(99), fc.constantFrom('k', 'M', 'R'), (whole, decimals, letter) => {
        const coded = readQuantity(`${whole}${letter}${decimals}`, 'resistance');
        const written = readQuantity(`${whole}.${decimals} ${letter === 'R' ? '' : letter}Ω`, 'resistance');
        return 'value' in coded && 'value' in written && coded.value === written.value;
      }),
    );
  });

  test('never throws and never gives a number that is not finite, whatever the text', () => {
    const text = fc.oneof(
      fc.string(),
      fc.string({ unit: fc.constantFrom(...Array.from('0123456789.,+-eEkKmMuµμpnRΩVAFs% ')) }),
    );
    fc.assert(
      fc.property(text, fc.constantFrom(...(Object.keys(boundedQuantities) as QuantityName[])), (input, name) => {
        const reading = readQuantity(input, name);
        return !('value' in reading) || Number.isFinite(reading.value);
      }),
      { numRuns: 2000 },
    );
  });
});
