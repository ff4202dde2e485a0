import { describe, expect, it } from 'vitest';
import { limitOf, type PlainCar, q, recordOf } from './plain-car.js';

/** 1e-10 is what bounds are found to; the checks leave a decade for the formulas' own rounding. */
function expectNear(actual: number | null, expected: number): void {
  expect(Math.abs((actual ?? Number.NaN) / expected - 1)).toBeLessThan(1e-9);
}

/** Discharge alone: nothing else takes charge from the link. */
const bareFall = (volts: number): PlainCar => ({
  parts: { 'rise-load': null, pack: { voltage: { min: volts, nominal: volts, max: volts } } },
});

describe('limits of a car made of textbook parts', () => {
  // Common practice: the divider, 47 000/19 and 47 000/9.
  it.each([
    ['student-ev-2026', 2473.684210526316],
    ['collegiate-ev-2026', 5222.222222222222],
  ])('the largest pre-charge resistance into 47 kΩ under %s is %d Ω', (ruleset, expected) => {
    const record = limitOf({ ruleset }, 'precharge-resistance-max-loads', 'pre-resistor');
    expectNear(record.value, expected);
    expect(record.satisfied).toBe(true);
    expect(record.margin).toBeCloseTo(1 - 1000 / expected, 9);
  });

  it('two loads count as their parallel resistance', () => {
    const parts = { 'second-load': { kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], resistance: q(100_000) } };
    const record = limitOf({ parts }, 'precharge-resistance-max-loads', 'pre-resistor');
    expectNear(record.value, 1 / (1 / 47_000 + 1 / 100_000) / 19);
  });

  it('the tolerances of the loads lower the bound, the resistor’s own only its nominal', () => {
    const parts = { 'rise-load': { resistance: q(47_000, 0.02) }, 'pre-resistor': { resistance: q(1000, 0.05) } };
    const record = limitOf({ parts }, 'precharge-resistance-max-loads', 'pre-resistor');
    expectNear(record.value, (47_000 * 0.98) / 19);
    expectNear(record.nominal, (47_000 * 0.98) / 19 / 1.05);
  });

  it('a range that is not symmetric counts by its far end', () => {
    const parts = { 'pre-resistor': { resistance: { min: 990, nominal: 1000, max: 1200 } } };
    const largest = limitOf({ parts }, 'precharge-resistance-max-loads', 'pre-resistor');
    const smallest = limitOf({ parts }, 'precharge-resistance-min-current', 'pre-resistor');
    expectNear(largest.nominal, 47_000 / 19 / 1.2);
    expectNear(smallest.nominal, 600 / 1.5 / 0.99);
  });

  it('a tolerance that is not stated is the ruleset’s', () => {
    const record = limitOf(
      { parts: { 'pre-resistor': { resistance: 1000 } } },
      'precharge-resistance-max-loads',
      'pre-resistor',
    );
    expectNear(record.nominal, 47_000 / 19 / 1.1);
  });

  it('the setting with its error asks for less than the level', () => {
    const record = limitOf({}, 'precharge-resistance-max-setting', 'pre-resistor');
    expectNear(record.value, (47_000 * 0.035) / 0.965);
  });

  // Charging without a load: t = R·C·ln(1/(1 − p)).
  it('the timeout bounds the resistance and the capacitance alike', () => {
    const car: PlainCar = { parts: { 'rise-load': null } };
    const decays = Math.log(1 / 0.04);
    expectNear(limitOf(car, 'precharge-resistance-max-time', 'pre-resistor').value, 3 / (500e-6 * decays));
    expectNear(limitOf(car, 'link-capacitance-max-precharge', 'link').value, 3 / (1000 * decays));
  });

  // Charging with a load: v/U = s·(1 − e^(−t/τ)), s = L/(R + L), τ = C·(R ∥ L).
  it('with a load the rise takes exactly the timeout at the bound', () => {
    const value = limitOf({}, 'precharge-resistance-max-time', 'pre-resistor').value ?? Number.NaN;
    const share = 47_000 / (value + 47_000);
    expectNear(-500e-6 * value * share * Math.log(1 - 0.96 / share), 3);
  });

  it('the smallest current rating on the way bounds the resistance from below', () => {
    const record = limitOf({}, 'precharge-resistance-min-current', 'pre-resistor');
    expectNear(record.value, 600 / 1.5);
    expect(record.basis).toContain('breakingCurrent of pre-relay');
  });

  // 600 V and 1 kΩ: 360 W at the start (sample of common practice).
  it('the rating bounds the resistance, and the resistance the rating', () => {
    expectNear(limitOf({}, 'precharge-resistance-min-energy', 'pre-resistor').value, 600 ** 2 / 500);
    expectNear(limitOf({}, 'precharge-power-rating-min', 'pre-resistor').value, 360 / 5);
  });

  it('a rise into a short that lasts longer than the overload rating is bounded by the continuous one', () => {
    const record = limitOf({ precharge: { timeout: 6 } }, 'precharge-resistance-min-energy', 'pre-resistor');
    expectNear(record.value, 600 ** 2 / 100);
    expect(record.satisfied).toBe(null);
  });

  it('each load is bounded by what the others leave', () => {
    expectNear(limitOf({}, 'precharge-load-resistance-min', 'rise-load').value, 19_000);
    const parts = { 'second-load': { kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], resistance: q(100_000) } };
    expectNear(limitOf({ parts }, 'precharge-load-resistance-min', 'rise-load').value, 1 / (1 / 19_000 - 1 / 100_000));
  });

  it('a cable on the way to a load is none', () => {
    const parts = {
      'rise-load': { nodes: ['fp', 'ln'], resistance: q(10_000) },
      cable: { kind: 'resistor', zone: 'vehicle', role: 'other', nodes: ['lp', 'fp'], resistance: q(0.01) },
    };
    expectNear(limitOf({ parts }, 'precharge-load-resistance-min', 'rise-load').value, 19_000 - 0.01);
    expect(recordOf({ parts }, 'precharge-load-resistance-min', 'cable')).toBeUndefined();
  });

  // At p·U the resistor carries (1 − p)·U/R: 0.95·0.05·600²/1000 = 17.1 W; 47 kΩ beside it take 0.95²·600²/47 000.
  it('a constant power is bounded by what the resistor carries at the level', () => {
    const load = { kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], power: q(5), startsAbove: 400, stopsBelow: 300 };
    expectNear(
      limitOf({ parts: { 'rise-load': null, converter: load } }, 'constant-power-load-max', 'converter').value,
      17.1,
    );
    const both = limitOf({ parts: { converter: load } }, 'constant-power-load-max', 'converter');
    expectNear(both.value, 17.1 - (0.95 * 600) ** 2 / 47_000);
    expect(both.satisfied).toBe(true);
  });

  it('the setting is the level and the error', () => {
    expectNear(limitOf({}, 'precharge-threshold-setting-min').value, 0.955);
  });

  // Discharge to 60 V in 5 s: the largest time constants, computed from ln(U/60).
  it.each([
    [600, 2.1715],
    [500, 2.3582],
    [400, 2.6356],
    [300, 3.1067],
    [200, 4.1529],
    [120, 7.2135],
  ])('from %d V the time constant of the fall may be %d s', (volts, constant) => {
    const resistance = limitOf(bareFall(volts), 'discharge-resistance-max-time', 'dis-resistor').value ?? Number.NaN;
    const capacitance = limitOf(bareFall(volts), 'link-capacitance-max-discharge', 'link').value ?? Number.NaN;
    expect(resistance * 500e-6).toBeCloseTo(constant, 4);
    expect(capacitance * 2200).toBeCloseTo(constant, 4);
  });

  it('the release of the relays is taken off the time', () => {
    const { parts } = bareFall(600);
    const car = { parts: { ...parts, 'air-pos': { releaseTime: 0.2 } } };
    expectNear(limitOf(car, 'discharge-resistance-max-time', 'dis-resistor').value, 4.8 / (500e-6 * Math.LN10));
  });

  it('the highest voltage for good bounds the discharge resistor', () => {
    expectNear(limitOf({}, 'discharge-resistance-min-power', 'dis-resistor').value, 600 ** 2 / 200);
    expectNear(limitOf({}, 'discharge-power-rating-min', 'dis-resistor').value, 600 ** 2 / 2200);
  });

  // Ohm’s law: what the link lacks, and what the charging current drops in the capacitor, over all the resistance there is.
  it('the inrush at the last contact is held against its making current', () => {
    const parts = { pack: { resistance: q(0.2) }, link: { esr: q(0.01) }, 'rise-load': null };
    const record = limitOf({ parts }, 'second-contact-inrush-max', 'air-pos');
    expect(record.value).toBe(500);
    const lacking = 0.045 * 600;
    expectNear(record.present, (lacking + (0.01 * lacking) / 1000.2) / 0.21);
  });

  // 20 mA and 6 W in each 15 kΩ at 600 V, the points shorted: the rulebooks’ table.
  it('the measuring points’ resistors of the books stand exactly their power', () => {
    expectNear(limitOf({}, 'measuring-point-resistance', 'point-pos').value, 15_000);
  });
});
