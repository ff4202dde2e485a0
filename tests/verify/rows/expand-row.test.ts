import { describe, expect, it } from 'vitest';
import { plainCircuit, readCircuit } from '../../../src/circuit/index.js';
import { rulesetById } from '../../../src/rules/ruleset-by-id.js';
import { arrangements } from '../../../src/verify/rows/arrangements.js';
import { columns } from '../../../src/verify/rows/columns/columns.js';
import { exampleRows } from '../../../src/verify/rows/example-rows.js';
import { verifyCircuit } from '../../../src/verify/verify-circuit.js';
import { drawn, element, faultsOf, judged, read, type Row, rowWith } from './judged-row.js';

const near = (actual: number | null | undefined, wanted: number, relative: number) =>
  expect(Math.abs((actual ?? Number.NaN) / wanted - 1)).toBeLessThan(relative);

describe.each(exampleRows.map((row) => [row['arrangement'] ?? '', row] as const))('%s', (id, row) => {
  it('is drawn, and the circuit that comes back gives the same report', () => {
    const book = rulesetById('student-ev-2020')!;
    const { circuit } = drawn(row);
    const first = verifyCircuit({ circuit, ruleset: book });
    const again = readCircuit(JSON.parse(JSON.stringify(plainCircuit(circuit))), '#/circuit');
    if ('faults' in again) throw new Error(JSON.stringify(again.faults));
    expect(verifyCircuit({ circuit: again.circuit, ruleset: book })).toEqual(first);
    // Fully stated and sound by the calculation below, so nothing may be left open.
    expect(first.findings.filter(({ status }) => status === 'violated' || status === 'undetermined')).toEqual([]);
    expect(first.verdict).toBe('no-violation-found');
  });

  it('settles and rises as the divider and e^(-t/RC) say', () => {
    const { precharge } = judged(row);
    // Textbook: the divider of the 47 kΩ ± 1 % meter and the 1 kΩ ± 5 % resistor; all else is far below an ohm.
    near(precharge.steadyRatio.min, 46_530 / (46_530 + 1050), 1e-5);
    near(precharge.steadyRatio.max, 47_470 / (47_470 + 950), 1e-5);
    // Highest voltage over the smallest resistance.
    near(precharge.peakCurrent.max, 420 / 950, 1e-3);
    const [ohms, share] = [(1050 * 46_530) / (1050 + 46_530), 46_530 / (46_530 + 1050)];
    near(precharge.timeToThreshold.max, -Math.log(1 - 0.96 / share) * ohms * 470e-6 * 1.2, 1e-3);
  });

  it('falls as e^(-t/RC) says in every state that the book names', () => {
    const falls = judged(row).discharge.filter(({ required }) => required);
    expect(falls.length).toBeGreaterThan(0);
    // The meter is lost with the disconnect: then the discharge resistor is alone. The relay releases after 30 ms.
    const longest = 3300 * 1.05 * 470e-6 * 1.2 * Math.log(420 / 60);
    const worst = Math.max(...falls.map(({ timeToLimit }) => timeToLimit?.max ?? Number.POSITIVE_INFINITY));
    expect(worst).toBeGreaterThan(longest * 0.99);
    expect(worst).toBeLessThan(longest + 0.06);
  });

  it('has the containers and the pre-charge pole that it says', () => {
    const arrangement = arrangements.find((one) => one.id === id)!;
    const { circuit } = drawn(row);
    const packs = circuit.elements.filter(({ kind }) => kind === 'accumulator');
    expect(packs).toHaveLength(arrangement.severalContainers ? 2 : 1);
    const relay = circuit.elements.find((one) => one.id === 'precharge-relay')!;
    const poles = packs.map(({ nodes }) => nodes[1]);
    expect(poles.includes(relay.nodes[0])).toBe(arrangement.prechargePole === 'negative');
  });
});

it('shares the voltage, the resistance and the capacitance of the whole', () => {
  const row = { ...exampleRows[2], container_count: 3, inverter_count: 4, pack_resistance: '300 mΩ' };
  const { circuit } = drawn(row);
  const packs = circuit.elements.filter((one) => one.kind === 'accumulator');
  expect(packs.map(({ voltage }) => voltage.max)).toEqual([140, 140, 140]);
  for (const { resistance } of packs) near(resistance?.nominal, 0.1, 1e-12);
  const capacitors = circuit.elements.filter((one) => one.kind === 'capacitor');
  expect(capacitors).toHaveLength(4);
  near(
    capacitors.reduce((sum, { capacitance }) => sum + capacitance.nominal, 0),
    470e-6,
    1e-12,
  );
  near(capacitors[0]?.esr?.nominal, 0.012, 1e-12);
  expect(judged(row).verdict).toBe('no-violation-found');
});

it('without an indicator on its container comes back as a circuit that says so', () => {
  const { circuit } = drawn(rowWith({ container_indicator: 'no' }));
  const again = readCircuit(JSON.parse(JSON.stringify(plainCircuit(circuit))), '#/circuit');
  if (!('circuit' in again)) throw new Error(JSON.stringify(again));
  expect(again.circuit.containerIndicators).toEqual([]);
  expect(again.circuit.containerIndicator).toBeUndefined();
  expect(drawn(rowWith({ container_indicator: '' })).circuit.containerIndicators).toBeUndefined();
});

describe('the mistakes that inspectors know', () => {
  // Each cell's mistake breaks the rule beside it (the contract's table of rules); emptied it may not pass in silence.
  const mistakes: readonly [string, unknown, string, string?][] = [
    ['discharge_rest', 'open', 'discharge-fail-safe'],
    ['discharge_place', 'ahead-of-disconnect', 'discharge-time'],
    ['discharge_place', 'container', 'discharge-stays-with-car'],
    ['discharge_fused', 'yes', 'discharge-unfused'],
    ['discharge_supply', 'independent', 'discharge-fail-safe'],
    ['discharge_resistance', '9 kΩ', 'discharge-time'],
    ['discharge_power_rating', '20 W', 'discharge-rating'],
    ['precharge_resistance', '3.3 kΩ', 'precharge-reaches-threshold'],
    ['precharge_relay_construction', 'solid-state', 'precharge-relay-type'],
    ['precharge_relay_supply', 'independent', 'precharge-supply'],
    ['precharge_relay_place', 'vehicle', 'no-unswitched-voltage-outside'],
    ['precharge_method', 'timer', 'precharge-compares-voltages'],
    ['precharge_reference', 'fixed', 'precharge-compares-voltages'],
    ['precharge_threshold', '90 %', 'precharge-setting'],
    ['precharge_link_sense', 'container', 'precharge-compares-voltages'],
    ['precharge_fused', 'yes', 'precharge-unfused', 'collegiate-ev-2024'],
    ['precharge_technology', 'ptc', 'no-ptc', 'collegiate-ev-2024'],
    ['meter_resistance', '5 kΩ', 'precharge-reaches-threshold'],
    ['main_fuse_current', '3 kA', 'main-fuse'],
    ['isolation_relay_construction', 'solid-state', 'isolation-both-poles'],
    ['isolation_relay_voltage_rating', '300 V', 'relay-ratings'],
    ['pack_voltage_max', '650 V', 'highest-voltage'],
    ['link_voltage_rating', '350 V', 'voltage-ratings'],
    ['measuring_point_resistance', '1 kΩ', 'measuring-points'],
    ['measuring_point_place', 'ahead-of-disconnect', 'measuring-points-see-the-link'],
    ['indicator_watches', 'isolation-relays', 'indicator-sees-contacts'],
    ['indicator_watches', 'none', 'indicator-sees-contacts'],
    ['indicator_senses', 'none', 'indicator-sees-voltage'],
    ['container_indicator', 'no', 'container-indicator'],
  ];

  it.each(mistakes)('%s: %s breaks %s', (column, cell, rule, ruleset = 'student-ev-2020') => {
    const report = judged(rowWith({ [column]: cell }), ruleset);
    const broken = report.findings.filter(({ status }) => status === 'violated').map((finding) => finding.rule);
    expect(broken).toContain(rule);
    const { weight } = report.findings.find((finding) => finding.rule === rule)!;
    if (weight === 'rule') expect(report.verdict).toBe('violation-found');
  });

  it.each(mistakes)(
    '%s left empty (in place of %s) does not meet %s',
    (column, _cell, rule, ruleset = 'student-ev-2020') => {
      // Of the resistor's own thermal data its rating could be worked out all the same.
      const row = rowWith({ [column]: '', discharge_thermal_resistance: '' });
      const reading = read(row);
      if ('faults' in reading) expect(faultsOf(row).map(([name]) => name)).toContain(column);
      else expect(judged(row, ruleset).findings.find((finding) => finding.rule === rule)?.status).toBe('undetermined');
    },
  );
});

it('draws a car without a discharge circuit, whose link never falls', () => {
  const row = Object.fromEntries(Object.entries(rowWith()).filter(([name]) => !name.startsWith('discharge_')));
  const report = judged({ ...row, discharge_place: 'none' });
  expect(report.findings.find(({ rule }) => rule === 'discharge-time')?.status).toBe('violated');
});

describe('what is not stated', () => {
  it('is a fault at each column without which nothing can be drawn, all at once', () => {
    expect(faultsOf({ car: 'Mere name' }).map(([column]) => column)).toEqual([
      'arrangement',
      'discharge_fused',
      'discharge_place',
      'discharge_resistance',
      'discharge_rest',
      'disconnect_place',
      'link_capacitance',
      'meter_place',
      'pack_voltage_max',
      'precharge_fused',
      'precharge_relay_place',
      'precharge_resistance',
      'precharge_resistor_place',
    ]);
  });

  it.each(['', ' ', '\u00a0', '\u200b', '-', '–', '?', 'n/a', 'N/A', 'unknown', null])(
    'is what the cell %j says',
    (cell) => {
      expect(faultsOf(rowWith({ discharge_rest: cell }))).toEqual([['discharge_rest', 'missing-field']]);
      expect(element(rowWith({ precharge_relay_construction: cell }), 'precharge-relay').construction).toBeUndefined();
    },
  );

  it('is asked for at the column, not in the circuit', () => {
    const row = rowWith({
      discharge_power_rating: '',
      discharge_thermal_resistance: '',
      precharge_timeout: '',
      measuring_point_resistance: '',
      measuring_point_resistance_tolerance: '',
    });
    const cleared = Object.fromEntries(Object.entries(row).filter(([name]) => !name.startsWith('measuring_point_')));
    const { toColumn } = drawn(cleared);
    const missing = judged(cleared).findings.flatMap((finding) => finding.missing ?? []);
    const asked = new Set(missing.map(toColumn));
    expect([...asked].filter((pointer) => !pointer.startsWith('#/row/'))).toEqual([]);
    expect(asked).toContain('#/row/discharge_power_rating');
    expect(asked).toContain('#/row/precharge_timeout');
    expect(asked).toContain('#/row/measuring_point_resistance');
  });

  it('may be the meter where the event states one, and only then', () => {
    const row = rowWith({ meter_place: '', meter_resistance: '', meter_resistance_tolerance: '' });
    expect(faultsOf(row)).toEqual([['meter_place', 'missing-field']]);
    expect('circuit' in read(row, 'point', true)).toBe(true);
  });

  it('is never a voltage range: with the highest voltage alone the range stays open', () => {
    const row = rowWith({ pack_voltage_min: '', pack_voltage_nominal: '' });
    expect(element(row, 'pack').voltage).toMatchObject({ nominal: 420, toleranceStated: false });
    expect(judged(row).verdict).toBe('undetermined');
    expect(faultsOf(rowWith({ pack_voltage_min: '' }))).toEqual([['pack_voltage_min', 'missing-field']]);
  });
});

describe('cells that contradict each other', () => {
  it.each<[string, Row, string]>([
    ['one container of two', { container_count: 2 }, 'container_count'],
    ['a disconnect between containers that are one', { disconnect_place: 'between-containers' }, 'disconnect_place'],
    ['a discharge resistor without a discharge circuit', { discharge_place: 'none' }, 'discharge_place'],
    ['a relay without a contact', { discharge_rest: 'no-contact' }, 'discharge_rest'],
    ['measuring points without resistors', { measuring_point_resistance: '' }, 'measuring_point_resistance'],
    ['a rating of no fuse', { discharge_fuse_voltage_rating: '700 V' }, 'discharge_fused'],
    ['a rating without a disconnect', { disconnect_place: 'none' }, 'disconnect_place'],
    ['a tolerance of nothing', { link_esr: '' }, 'link_esr_tolerance'],
    ['an overload without its duration', { precharge_overload_duration: '' }, 'precharge_overload_duration'],
    ['two tolerances', { link_capacitance: '470 µF ± 10 %' }, 'link_capacitance_tolerance'],
    ['none beside something', { indicator_watches: 'none precharge-relay' }, 'indicator_watches'],
    ['a range out of order', { pack_voltage_min: '500 V' }, 'pack_voltage_min'],
  ])('%s', (_name, changes, column) => {
    const faults = faultsOf(rowWith(changes)).map(([name]) => name);
    expect(faults).toContain(column);
    // One mistake is one fault, or one for each of the two cells.
    expect(faults.length).toBeLessThanOrEqual(2);
  });
});

describe('the table of columns', () => {
  it('names each column once', () => {
    const names = columns.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z]+(_[a-z]+)*$/);
  });

  it('leads every field to a place that the drawing has', () => {
    // A stated cell changes the circuit: nothing that somebody fills in is forgotten.
    const base = JSON.stringify(plainCircuit(drawn(rowWith()).circuit));
    const other: Row = {
      car: 'Else',
      inverter_count: 2,
      precharge_fixed_voltage: '350 V',
      precharge_timer_delay: '2 s',
      precharge_temperature_measured: '120 °C',
      discharge_temperature_measured: '120 °C',
      precharge_fuse_voltage_rating: '700 V',
      discharge_fuse_voltage_rating: '700 V',
      measuring_point_temperature_measured: '120 °C',
    };
    const idle = columns.filter(({ name, cell }) => {
      if (name === 'arrangement' || name === 'container_count') return false;
      const value = other[name] ?? otherCell(cell, exampleRows[0]?.[name]);
      const reading = read(rowWith({ [name]: value }));
      if ('faults' in reading) return !reading.faults.some(({ pointer }) => pointer.startsWith('#/row'));
      return JSON.stringify(plainCircuit(reading.circuit)) === base;
    });
    expect(idle.map(({ name }) => name)).toEqual([]);
  });
});

/** Another legal cell than the one given. */
function otherCell(cell: (typeof columns)[number]['cell'], given: string | undefined): unknown {
  switch (cell.form) {
    case 'text':
      return 'Else';
    case 'word':
      return cell.words.find((word) => word !== given) ?? '';
    case 'words':
      return cell.words[0];
    case 'yes-no':
      return given === 'yes' ? 'no' : 'yes';
    case 'count':
      return 3;
    case 'quantity':
      return String(given).replace(/^[\d.]+/, (number) => String(Number(number) * 0.99));
  }
}
