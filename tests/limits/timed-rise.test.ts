import { describe, expect, it } from 'vitest';
import { computeLimits, type LimitRecord } from '../../src/limits/index.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import { rules } from '../../src/rules/rules.js';
import { limitOf, type PlainCar, plainFacts, q } from './plain-car.js';

/** The book that allows a timer: 90 %, and the timer twice the rise or half a second more. */
const RULESET = 'collegiate-ev-2024';
const timed = (delay: number | undefined, parts: PlainCar['parts'] = {}): PlainCar => ({
  ruleset: RULESET,
  precharge: { method: 'timer', delay, timeout: undefined },
  parts,
});
const unloaded = { 'rise-load': null } as const;

function statusOf(car: PlainCar, { element = '' }: LimitRecord, value: number): string | undefined {
  const ruleset = rulesetById(RULESET);
  const rule = rules.find(({ meta }) => meta.id === 'precharge-compares-voltages');
  if (ruleset === undefined) throw new Error('the ruleset is gone');
  const facts = plainFacts(car).withValue(element, { nominal: value, tolerance: 0 });
  return rule?.check(facts, ruleset, () => []).status;
}

describe('a rise that a timer ends', () => {
  // Charging, textbook: R·C·ln 10 up to 90 %. 5 s leave half of it, 0.8 s all but half a second.
  it.each([
    [5, 2.5],
    [0.8, 0.3],
  ])('of %d s may take %d s', (delay, time) => {
    const car = timed(delay, unloaded);
    const resistance = limitOf(car, 'precharge-resistance-max-time', 'pre-resistor');
    const capacitance = limitOf(car, 'link-capacitance-max-precharge', 'link');
    expect(resistance.value).toBeCloseTo(time / (500e-6 * Math.log(10)), 6);
    expect((capacitance.value ?? 0) * 1e6).toBeCloseTo((time / (1000 * Math.log(10))) * 1e6, 6);
    for (const record of [resistance, capacitance]) {
      expect(record.rule).toBe('precharge-compares-voltages');
      expect(record.basis).toContain(`the ${time} s that a timer of ${delay} s leaves for it`);
      expect(record.satisfied).toBe(time > 1000 * 500e-6 * Math.log(10));
    }
  });

  it.each([
    ['precharge-resistance-max-time', 'pre-resistor'],
    ['link-capacitance-max-precharge', 'link'],
  ])('%s is where the rule flips, with a load too', (name, element) => {
    const car = timed(4);
    const record = limitOf(car, name, element);
    const nominal = record.nominal ?? Number.NaN;
    expect(statusOf(car, record, nominal * (1 - 1e-6))).toBe('met');
    expect(statusOf(car, record, nominal * (1 + 1e-6))).toBe('violated');
  });

  it('closes the window of a resistor that is never switched off as well', () => {
    const always = { ...unloaded, 'dis-relay': null, 'dis-resistor': { nodes: ['lp', 'ln'], resistance: q(30_000) } };
    const car = timed(2.5, always);
    const window = computeLimits(plainFacts(car)).windows.find(({ element }) => element === 'dis-resistor');
    expect(window?.minBy).toBe('precharge-resistance-max-time');
    // Charging with a load: t = τ·ln(s/(s − p)), s = L/(R + L), τ = C·(R ∥ L); 1.25 s of 2.5 s.
    const share = (window?.min ?? Number.NaN) / (1000 + (window?.min ?? Number.NaN));
    expect(500e-6 * 1000 * share * Math.log(share / (share - 0.9))).toBeCloseTo(1.25, 8);
  });

  it('is hopeless where the timer leaves no time at all', () => {
    const record = limitOf(timed(0.4, unloaded), 'precharge-resistance-max-time', 'pre-resistor');
    expect(record).toMatchObject({ outcome: 'no-value-helps', value: null, satisfied: false });
  });

  it('cannot be bounded without the delay, and the window says so', () => {
    const record = limitOf(timed(undefined), 'precharge-resistance-max-time', 'pre-resistor');
    expect(record).toMatchObject({ outcome: 'not-stated', satisfied: null });
    expect(record.missing).toEqual(['#/circuit/control/precharge/delay']);
    const { windows } = computeLimits(plainFacts(timed(undefined)));
    const window = windows.find(({ element }) => element === 'pre-resistor');
    expect(window?.explanation).toContain('#/circuit/control/precharge/delay');
  });
});
