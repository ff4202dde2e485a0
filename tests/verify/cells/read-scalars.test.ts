import { describe, expect, it } from 'vitest';
import { limits, scalarNames } from '../../../src/limits/index.js';
import { cellParameters, unitOf } from '../../../src/verify/cells/cell-parameters.js';
import { limitByName, noSuchLimit } from '../../../src/verify/cells/limit-by-name.js';
import { limitCell } from '../../../src/verify/cells/limit-cell.js';
import { readScalar } from '../../../src/verify/cells/read-scalar.js';
import { readScalars } from '../../../src/verify/cells/read-scalars.js';
import { splitList } from '../../../src/verify/cells/split-list.js';

describe('a value of a query', () => {
  it.each([
    ['600', 'positiveVoltage', 600],
    ['600.', 'positiveVoltage', 600],
    ['.6 kV', 'positiveVoltage', 600],
    ['6e2', 'positiveVoltage', 600],
    ['5E-04', 'capacitance', 0.0005],
    ['500u', 'capacitance', 0.0005],
    [' 47 kΩ ', 'positiveResistance', 47_000],
    ['4k7', 'positiveResistance', 4700],
    ['95 %', 'fraction', 0.95],
    ['5 ms', 'time', 0.005],
  ] as const)('%j is read as %s', (text, name, value) => {
    expect(readScalar(text, name, 'point')).toEqual({ value });
    expect(readScalar(text, name, 'comma')).toEqual({ value });
  });

  it.each([
    ['0,95', 'fraction', 0.95],
    ['4,7 kΩ', 'positiveResistance', 4700],
    ['5,0E-04', 'capacitance', 0.0005],
    ['0.950', 'fraction', 0.95],
    ['1.5', 'time', 1.5],
    ['1234.567', 'positiveVoltage', 1234.567],
  ] as const)('%j with a decimal comma', (text, name, value) => {
    expect(readScalar(text, name, 'comma')).toEqual({ value });
  });

  it.each([
    ['0,95', 'point', 'decimal-comma'],
    ['1.500', 'comma', 'ambiguous-number'],
    ['12.000.000', 'comma', 'ambiguous-number'],
    ['1,5,0', 'comma', 'decimal-comma'],
    ['', 'point', 'empty-quantity'],
    ['NaN', 'point', 'not-a-quantity'],
    ['Infinity', 'point', 'not-a-quantity'],
    ['1e999', 'point', 'out-of-bounds'],
  ] as const)('%j is refused with a decimal %s: %s', (text, decimal, code) => {
    expect(readScalar(text, 'positiveResistance', decimal)).toMatchObject({ code });
  });
});

describe('a list of a query', () => {
  it.each([
    [['47k,100k'], 'point', ['47k', '100k']],
    [['47k', '100k;1M'], 'point', ['47k', '100k', '1M']],
    [['1,2'], 'point', ['1', '2']],
    [['47k,100k'], 'comma', ['47k', '100k']],
    [['1,5;2'], 'comma', ['1,5', '2']],
    [['1,5 k;'], 'comma', ['1,5 k', '']],
  ] as const)('%j with a decimal %s is %j', (texts, decimal, items) => {
    expect(splitList(texts, decimal)).toEqual({ items });
  });

  it('has no comma of two meanings', () => {
    expect(splitList(['47000,100000'], 'comma')).toMatchObject({ code: 'ambiguous-number' });
  });
});

describe('the parameters', () => {
  it('are described, each with an example that can stand in an address as it is', () => {
    expect(Object.keys(cellParameters)).toEqual(scalarNames);
    for (const name of scalarNames) {
      const { description, example, quantity } = cellParameters[name];
      expect(description).toMatch(/\.$/);
      expect(encodeURIComponent(example)).toBe(example);
      expect(readScalar(example, quantity, 'point')).toHaveProperty('value');
    }
    expect(unitOf('capacitance')).toBe('F');
    expect(unitOf('threshold')).toBe('');
  });

  it.each(limits.map((limit) => [limit.meta.name, limit] as const))('of %s make a number', (_name, limit) => {
    const { required, optional, formula } = limit.fromScalars;
    const query = Object.fromEntries([...required, ...optional].map((name) => [name, cellParameters[name].example]));
    const reading = readScalars({ limit, query, decimal: 'point', others: [] });
    if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
    const cell = limitCell(limit, reading.scalars);
    expect(cell.value).toBeGreaterThan(0);
    expect(Object.keys(cell.inputs).sort()).toEqual([...required, ...optional].sort());
    expect(cell.basis.startsWith(formula)).toBe(true);
    for (const name of required) expect(cell.basis).toContain(`${name} = `);
  });

  it('that are missing are all named', () => {
    const limit = limitByName('discharge-resistance-max-time');
    if (limit === undefined) throw new Error('the limit is gone');
    const reading = readScalars({ limit, query: {}, decimal: 'point', others: [] });
    expect('faults' in reading && reading.faults.map(({ parameter }) => parameter)).toEqual([
      'voltage',
      'capacitance',
      'time',
      'limitVoltage',
    ]);
  });
});

describe('a limit’s name', () => {
  it('that does not exist gets a suggestion where one is near', () => {
    expect(noSuchLimit('precharge-resistance-max-loads2')).toContain('did you mean `precharge-resistance-max-loads`?');
    expect(noSuchLimit('x')).toBe('There is no limit `x`. GET /v1/limits lists all.');
  });
});
