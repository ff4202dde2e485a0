import { describe, expect, it } from 'vitest';
import { computeLimits } from '../../src/limits/index.js';
import { limitOf, type PlainCar, plainFacts, q } from './plain-car.js';

const control = '#/circuit/control/precharge';

describe('what is not stated leaves a limit open and says so', () => {
  it.each<[string, string, string, PlainCar]>([
    [
      'precharge-resistance-max-setting',
      'pre-resistor',
      `${control}/comparisonError`,
      { precharge: { comparisonError: undefined } },
    ],
    ['precharge-resistance-max-time', 'pre-resistor', `${control}/timeout`, { precharge: { timeout: undefined } }],
    ['link-capacitance-max-precharge', 'link', `${control}/timeout`, { precharge: { timeout: undefined } }],
    ['precharge-resistance-min-energy', 'pre-resistor', `${control}/timeout`, { precharge: { timeout: undefined } }],
    ['precharge-power-rating-min', 'pre-resistor', `${control}/attempts`, { precharge: { attempts: undefined } }],
    [
      'precharge-resistance-min-current',
      'pre-resistor',
      '/ratings/makingCurrent',
      { parts: { 'pre-relay': { ratings: { breakingCurrent: 2, carryingCurrent: 2 } } } },
    ],
    [
      'discharge-resistance-min-power',
      'dis-resistor',
      '/ratings/power',
      { parts: { 'dis-resistor': { ratings: {} } } },
    ],
    [
      'second-contact-inrush-max',
      'air-pos',
      '/ratings/makingCurrent',
      { parts: { 'air-pos': { ratings: {} }, pack: { resistance: q(0.2) } } },
    ],
    ['measuring-point-resistance', 'point-pos', '/ratings/power', { parts: { 'point-pos': { ratings: {} } } }],
  ])('%s on %s wants %s', (name, element, missing, car) => {
    const record = limitOf(car, name, element);
    expect(record).toMatchObject({
      value: null,
      nominal: null,
      margin: null,
      satisfied: null,
      outcome: 'not-stated',
      binding: false,
    });
    expect(record.missing?.some((pointer) => pointer.endsWith(missing))).toBe(true);
    expect(record.note).toBeDefined();
  });

  it('what fails whatever the missing field says is not satisfied', () => {
    const car: PlainCar = {
      parts: { 'rise-load': { resistance: q(10_000) } },
      precharge: { comparisonError: undefined },
    };
    expect(limitOf(car, 'precharge-resistance-max-setting', 'pre-resistor').satisfied).toBe(false);
    const relay: PlainCar = { parts: { 'pre-relay': { ratings: { makingCurrent: 0.5 } } } };
    expect(limitOf(relay, 'precharge-resistance-min-current', 'pre-resistor').satisfied).toBe(false);
  });

  it('what only assumed tolerances break is undetermined, and the bound still stands', () => {
    // 2 400 Ω + 10 % is above 47 000/19 = 2 473.68 Ω, 2 400 Ω is not.
    const record = limitOf(
      { parts: { 'pre-resistor': { resistance: 2400 } } },
      'precharge-resistance-max-loads',
      'pre-resistor',
    );
    expect(record.satisfied).toBe(null);
    expect(record.missing?.some((pointer) => pointer.endsWith('/resistance'))).toBe(true);
    expect(record.nominal).toBeCloseTo(47_000 / 19 / 1.1, 6);
    expect(record.margin ?? 0).toBeLessThan(0);
  });

  it('a timer asks for no setting and no timeout', () => {
    const { limits } = computeLimits(plainFacts({ precharge: { method: 'timer', delay: 5, timeout: undefined } }));
    const names = limits.map(({ name }) => name);
    expect(names).not.toContain('precharge-resistance-max-setting');
    expect(names).not.toContain('precharge-threshold-setting-min');
    expect(names).toContain('precharge-resistance-max-loads');
    expect(JSON.stringify(limits)).not.toContain('precharge/timeout');
  });

  it('a car without a pre-charge path has no limits on it, and one without a discharge none on that', () => {
    const bare = computeLimits(
      plainFacts({ parts: { 'pre-relay': null, 'pre-resistor': null, pack: { resistance: q(0.2) } } }),
    ).limits;
    expect(bare.filter(({ name }) => name.startsWith('precharge-resistance'))).toEqual([]);
    const lasting = computeLimits(plainFacts({ parts: { 'dis-relay': null, 'dis-resistor': null } })).limits;
    expect(lasting.filter(({ name }) => name.startsWith('discharge-'))).toEqual([]);
    const capacitor = lasting.find(({ name }) => name === 'link-capacitance-max-discharge');
    expect(capacitor).toMatchObject({ outcome: 'no-value-helps', satisfied: false, value: null });
  });

  it('a link with nothing on it asks nothing of the pre-charge resistor’s share', () => {
    const record = limitOf({ parts: { 'rise-load': null } }, 'precharge-resistance-max-loads', 'pre-resistor');
    expect(record).toMatchObject({ outcome: 'no-value-hurts', satisfied: true, value: null, binding: false });
  });

  it('the same circuit gives the same bytes, whatever was read before', () => {
    const facts = plainFacts();
    const first = JSON.stringify(computeLimits(facts));
    expect(JSON.stringify(computeLimits(facts))).toBe(first);
    expect(JSON.stringify(computeLimits(plainFacts()))).toBe(first);
  });
});
