import { describe, expect, it } from 'vitest';
import { computeLimits, type WindowRecord } from '../../src/limits/index.js';
import { exampleCases } from './example-cases.js';
import { type PlainCar, plainFacts, q } from './plain-car.js';

/** IEC 60063, table of the E24 series. */
const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

function windowOf(car: PlainCar, element: string): WindowRecord {
  const found = computeLimits(plainFacts(car)).windows.find((each) => each.element === element);
  if (found === undefined) throw new Error(`no window for ${element}`);
  return found;
}

describe('windows', () => {
  it('go from the tightest min to the tightest max and name both', () => {
    const window = windowOf({}, 'pre-resistor');
    // 600²/500 against 600/1.5; 47 000·0.035/0.965 against 47 000/19 and the timeout.
    expect(window.min).toBeCloseTo(720, 6);
    expect(window.minBy).toBe('precharge-resistance-min-energy');
    expect(window.maxBy).toBe('precharge-resistance-max-time');
    expect(window).toMatchObject({ unit: 'Ω', quantity: 'resistance', empty: false });
  });

  it('list exactly the E24 values inside, the farthest from an end first', () => {
    const { min, max, preferred } = windowOf({}, 'dis-resistor');
    const [low, high] = [min ?? Number.NaN, max ?? Number.NaN];
    const inside = [100, 1000]
      .flatMap((decade) => E24.map((value) => (value * decade) / 10))
      .filter((value) => value > low && value < high);
    expect([...preferred].sort((a, b) => a - b)).toEqual(inside);
    const room = (value: number) => Math.min(value / low, high / value);
    expect(preferred.map(room)).toEqual([...preferred].map(room).sort((a, b) => b - a));
  });

  it('are for the two circuits and the link only, in order of id', () => {
    expect(computeLimits(plainFacts()).windows.map(({ element }) => element)).toEqual([
      'dis-resistor',
      'link',
      'pre-resistor',
    ]);
  });

  it('an empty one says why, with both numbers', () => {
    const window = windowOf({ parts: { 'rise-load': { resistance: q(9_500) } } }, 'pre-resistor');
    expect(window.empty).toBe(true);
    expect(window.preferred).toEqual([]);
    // 9 500·0.035/0.965 = 344.56 Ω at most, 720 Ω at least.
    expect(window.explanation).toContain('720 Ω');
    expect(window.explanation).toContain('344.56 Ω');
    expect(window.explanation).toContain('precharge-resistance-min-energy');
    expect(window.explanation).toContain('precharge-resistance-max-setting');
  });

  it('one that no value can open names the rule', () => {
    const window = windowOf({ parts: { 'dis-relay': { rest: 'open' } } }, 'dis-resistor');
    expect(window).toMatchObject({ empty: true, preferred: [] });
    expect(window.explanation).toContain('discharge-resistance-max-time');
  });

  it('one with an end that cannot be computed says which field is missing', () => {
    const window = windowOf({ precharge: { timeout: undefined } }, 'pre-resistor');
    expect(window.explanation).toContain('#/circuit/control/precharge/timeout');
    expect(window.maxBy).toBe('precharge-resistance-max-setting');
  });

  it.each(exampleCases.map((each) => [each.id, each] as const))(
    'every value listed for %s keeps every limit on its part',
    (_, { facts }) => {
      const { limits, windows } = computeLimits(facts);
      for (const { element, unit, preferred } of windows) {
        for (const record of limits.filter((each) => each.element === element && each.unit === unit)) {
          if (record.nominal === null) continue;
          for (const value of preferred)
            expect(record.bound === 'max' ? value < record.nominal : value > record.nominal).toBe(true);
        }
      }
    },
  );

  it('a preferred value put into the car keeps every limit', () => {
    const facts = plainFacts();
    for (const { element, preferred } of computeLimits(facts).windows) {
      const [best] = preferred;
      if (best === undefined) throw new Error(`nothing preferred for ${element}`);
      const after = computeLimits(facts.withValue(element, { nominal: best, tolerance: 0 }));
      const broken = after.limits.filter(
        (each) => each.element === element && each.unit !== 'W' && each.satisfied !== true,
      );
      expect(broken.map(({ name }) => name)).toEqual([]);
    }
  });
});

describe('binding', () => {
  it.each(exampleCases.map((each) => [each.id, each] as const))(
    '%s: one limit of each kind on each part, the tightest',
    (_, { facts }) => {
      const { limits } = computeLimits(facts);
      for (const record of limits) {
        const alike = limits.filter(
          ({ element, unit, bound }) => element === record.element && unit === record.unit && bound === record.bound,
        );
        const bounding = alike.filter(({ outcome }) => outcome === 'bound' || outcome === 'no-value-helps');
        expect(alike.filter(({ binding }) => binding).length).toBe(bounding.length > 0 ? 1 : 0);
        const [binding] = alike.filter((each) => each.binding);
        if (record.nominal === null || (binding?.nominal ?? null) === null) continue;
        const tightest = binding?.nominal ?? Number.NaN;
        expect(record.bound === 'max' ? tightest <= record.nominal : tightest >= record.nominal).toBe(true);
      }
    },
  );
});
