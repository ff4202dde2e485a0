import { describe, expect, test } from 'vitest';
import { readToleranced } from '../../src/circuit/index.js';

const read = (input: unknown) => readToleranced(input, 'resistance', '#/r');

describe('readToleranced reads', () => {
  test('a bare quantity as a range of nothing whose tolerance is not stated', () => {
    expect(read('1 kΩ')).toEqual({ value: { min: 1000, nominal: 1000, max: 1000, toleranceStated: false } });
  });

  test('a tolerance of zero as an exact part', () => {
    expect(read({ nominal: 1000, tolerance: 0 })).toEqual({
      value: { min: 1000, nominal: 1000, max: 1000, toleranceStated: true },
    });
  });

  test('a tolerance as nominal·(1 ± t)', () => {
    expect(read({ nominal: '1k', tolerance: '50 %' })).toEqual({
      value: { min: 500, nominal: 1000, max: 1500, toleranceStated: true },
    });
  });

  test('a range as it stands', () => {
    expect(read({ min: '900 Ω', nominal: 1000, max: '1k2' })).toEqual({
      value: { min: 900, nominal: 1000, max: 1200, toleranceStated: true },
    });
  });
});

describe('readToleranced refuses', () => {
  test.each<[string, unknown, Array<readonly [string, string]>]>([
    ['nothing', null, [['#/r', 'wrong-type']]],
    ['a list', [1], [['#/r', 'wrong-type']]],
    [
      'an empty object',
      {},
      [
        ['#/r/nominal', 'missing-field'],
        ['#/r/tolerance', 'missing-field'],
      ],
    ],
    ['a nominal value alone', { nominal: 1 }, [['#/r/tolerance', 'missing-field']]],
    ['a tolerance alone', { tolerance: 0.1 }, [['#/r/nominal', 'missing-field']]],
    ['a range without max', { min: 1, nominal: 2 }, [['#/r/max', 'missing-field']]],
    ['a range without nominal', { min: 1, max: 2 }, [['#/r/nominal', 'missing-field']]],
    ['a tolerance of one', { nominal: 1, tolerance: 1 }, [['#/r/tolerance', 'out-of-bounds']]],
    ['a tolerance below zero', { nominal: 1, tolerance: -0.1 }, [['#/r/tolerance', 'out-of-bounds']]],
    ['a tolerance in a unit', { nominal: 1, tolerance: '5 Ω' }, [['#/r/tolerance', 'wrong-unit']]],
    ['both forms at once', { min: 1, nominal: 2, max: 3, tolerance: 0.1 }, [['#/r/tolerance', 'mixed-tolerance']]],
    ['min above nominal', { min: 3, nominal: 2, max: 4 }, [['#/r', 'unordered-range']]],
    ['nominal above max', { min: 1, nominal: 5, max: 4 }, [['#/r', 'unordered-range']]],
    [
      'a range whose nominal cannot be read, min above max',
      { min: 5, nominal: '2 V', max: 4 },
      [
        ['#/r', 'unordered-range'],
        ['#/r/nominal', 'wrong-unit'],
      ],
    ],
    ['a misspelt tolerance, as one fault', { nominal: 1, tolerence: 0.1 }, [['#/r/tolerence', 'unknown-field']]],
    ['a misspelt max, as one fault', { min: 1, nominal: 1, maxx: 2 }, [['#/r/maxx', 'unknown-field']]],
    [
      'two wrong values, as two faults',
      { min: '1 V', nominal: 2, max: null },
      [
        ['#/r/max', 'wrong-type'],
        ['#/r/min', 'wrong-unit'],
      ],
    ],
    ['a range that leaves the bounds', { nominal: 1e12, tolerance: 0.5 }, [['#/r', 'out-of-bounds']]],
  ])('%s', (_what, input, expected) => {
    const reading = read(input);
    const faults = 'faults' in reading ? reading.faults.map(({ pointer, code }) => [pointer, code] as const) : [];
    expect([...faults].sort()).toEqual(expected);
  });
});
