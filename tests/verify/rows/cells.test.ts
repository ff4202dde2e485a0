import { describe, expect, it } from 'vitest';
import { drawn, element, faultsOf, read, type Row, rowWith } from './judged-row.js';

const cell = (column: string, value: unknown) => rowWith({ [column]: value });
const capacitance = (row: Row, decimal: 'point' | 'comma' = 'point') =>
  (drawn(row, decimal).circuit.elements.find(({ id }) => id === 'link-capacitor') as any).capacitance;

/** The example row's own cells have no decimals, so they read alike either way. */
const commaRow = (changes: Row): Row =>
  Object.fromEntries(
    Object.entries(rowWith(changes)).map(([name, text]) => [
      name,
      name in changes || typeof text !== 'string' ? text : text.replace(/(\d)\.(\d)/, '$1,$2'),
    ]),
  );

describe('quantities in cells', () => {
  it.each<[unknown, number]>([
    ['680 µF', 680e-6],
    ['680 uF', 680e-6],
    ['680u', 680e-6],
    [' 680 µF ', 680e-6],
    ['680\u00a0µF', 680e-6],
    ['\u00a0680\u202fµF\u00a0', 680e-6],
    ['\u200b680 µF\u2060', 680e-6],
    ['0.00068', 680e-6],
    [0.00068, 680e-6],
    ['6.8e-4', 680e-6],
    ['0.68 mF', 680e-6],
  ])('%j is %f F', (text, farad) => {
    expect(capacitance(cell('link_capacitance', text)).nominal).toBe(farad);
  });

  it.each<[unknown, number]>([
    ['680,5 µF', 680.5e-6],
    ['0,00068', 680e-6],
    [',00068', 680e-6],
    ['680 µF', 680e-6],
    [0.00068, 680e-6],
  ])('with decimal commas %j is %f F', (text, farad) => {
    const row = commaRow({ link_capacitance: text });
    if (typeof text === 'number') {
      // A JSON number has no comma to be read; its text form has a point.
      expect(faultsOf(row, 'comma')).toEqual([]);
    }
    expect(capacitance(row, 'comma').nominal).toBe(farad);
  });

  it.each<[unknown, string]>([
    ['680,5 µF', 'decimal-comma'],
    ['680', 'unit-missing'],
    [680, 'unit-missing'],
    ['680 µH', 'unknown-unit'],
    ['680 V', 'wrong-unit'],
    ['many', 'not-a-quantity'],
    ['1\u00a0680 µF', 'not-a-quantity'],
    [true, 'wrong-type'],
    [{}, 'wrong-type'],
    ['-680 µF', 'out-of-bounds'],
    ['680 �F', 'undecodable-text'],
  ])('%j is refused: %s', (text, code) => {
    expect(faultsOf(cell('link_capacitance', text))).toEqual([['link_capacitance', code]]);
  });

  it('says what is wrong with digits in groups', () => {
    const reading = read(cell('link_capacitance', '1\u00a0680 µF'));
    expect('faults' in reading && reading.faults[0]?.detail).toContain('no spaces between digits');
  });

  it('refuses a point where commas were declared, since it could mark thousands', () => {
    expect(faultsOf(commaRow({ discharge_resistance: '3.300 Ω' }), 'comma')).toEqual([
      ['discharge_resistance', 'decimal-point'],
    ]);
  });

  it.each(['470 µF ± 10 %', '470 µF ±10%', '470uF +/- 10 %', '470 µF +- 0.1'])('%j carries its tolerance', (text) => {
    const { min, max } = capacitance(rowWith({ link_capacitance: text, link_capacitance_tolerance: '' }));
    expect(min).toBeCloseTo(423e-6, 12);
    expect(max).toBeCloseTo(517e-6, 12);
  });
});

describe('words in cells', () => {
  it.each(['closed', 'Closed', ' CLOSED ', '\u00a0closed\u00a0', '\u200bclosed'])('%j', (word) => {
    expect(element(cell('discharge_rest', word), 'discharge-relay').rest).toBe('closed');
  });

  it.each(['shutdown-circuit', 'Shutdown circuit', 'shutdown\u00a0circuit', 'shutdown_circuit', 'shutdownCircuit'])(
    '%j',
    (word) => {
      expect(element(cell('discharge_supply', word), 'discharge-relay').suppliedBy).toBe('shutdown-circuit');
    },
  );

  it.each<[unknown, boolean]>([
    ['yes', true],
    ['Y', true],
    [true, true],
    ['1', true],
    [1, true],
    ['No', false],
    [false, false],
    [0, false],
  ])('%j', (word, fused) => {
    const ids = drawn(cell('discharge_fused', word)).circuit.elements.map(({ id }) => id);
    expect(ids.includes('discharge-fuse')).toBe(fused);
  });

  it.each(['maybe', 'no-contact-at-all', '2'])('%j is refused', (word) => {
    expect(faultsOf(cell('discharge_fused', word))).toEqual([['discharge_fused', 'not-one-of']]);
  });

  it('counts', () => {
    for (const count of [2, '2', '2.0', '2,0']) {
      expect(
        drawn(cell('inverter_count', count)).circuit.elements.filter(({ kind }) => kind === 'capacitor'),
      ).toHaveLength(2);
    }
    for (const count of [0, 9, 1.5, 'two', -1]) {
      expect(faultsOf(cell('inverter_count', count))).toEqual([['inverter_count', 'out-of-bounds']]);
    }
  });
});

describe('headings', () => {
  const renamed = (name: string, as: string, value: unknown = rowWith()[name]): Row =>
    Object.fromEntries(Object.entries(rowWith()).map(([key, text]) => (key === name ? [as, value] : [key, text])));

  it.each([
    'Link capacitance',
    'LINK_CAPACITANCE',
    ' link-capacitance ',
    'Link\u00a0capacitance\u00a0',
    'linkCapacitance',
    'link capacitance (uF)',
  ])('%j is link_capacitance', (heading) => {
    expect(capacitance(renamed('link_capacitance', heading)).nominal).toBe(470e-6);
  });

  it('may state what bare numbers count in; a cell’s own unit wins', () => {
    expect(capacitance(renamed('link_capacitance', 'Link capacitance (µF)', '470')).nominal).toBe(470e-6);
    expect(capacitance(renamed('link_capacitance', 'Link capacitance [uF]', 470)).nominal).toBe(470e-6);
    expect(capacitance(renamed('link_capacitance', 'Link capacitance (µF)', '0.47 mF')).nominal).toBe(470e-6);
    expect(faultsOf(renamed('link_capacitance', 'Link capacitance (total)', '470'))[0]?.[0]).toBe('link_capacitance');
  });

  it('may have a remark where no number is wanted', () => {
    expect(faultsOf(renamed('discharge_rest', 'Discharge rest (open or closed)'))).toEqual([]);
  });

  it('in any order', () => {
    const reversed = Object.fromEntries(Object.entries(rowWith()).reverse());
    expect(drawn(reversed).circuit).toEqual(drawn(rowWith()).circuit);
  });

  it('of one meaning twice are a fault', () => {
    expect(faultsOf({ ...rowWith(), 'Link capacitance': '1 mF' })).toEqual([['link_capacitance', 'duplicate-column']]);
  });

  it('that are empty over empty cells are none', () => {
    expect(drawn({ ...rowWith(), '': '' }).extra).toEqual({});
    expect(drawn({ ...rowWith(), ' ': null }).extra).toEqual({});
    expect(drawn({ ...rowWith(), '': 'a remark' }).extra).toEqual({ '': 'a remark' });
  });

  it('of the caller’s own are kept, and those that look misspelt are mentioned', () => {
    const { extra, notes } = drawn({
      ...renamed('discharge_voltage_rating', 'discharge_volatge_rating'),
      team: 'Invented United',
      remark: null,
    });
    expect(extra).toEqual({ discharge_volatge_rating: '1500 V', team: 'Invented United', remark: null });
    expect(notes).toEqual(['`discharge_volatge_rating` is not read; did you mean `discharge_voltage_rating`?']);
  });
});
