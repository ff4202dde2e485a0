import { describe, expect, it } from 'vitest';
import { computeLimits, limits, type WindowRecord } from '../../src/limits/index.js';
import { whoWants } from '../../src/limits/who-wants.js';
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

  it('list exactly the E24 values that are inside over ± 5 %, the farthest from an end first', () => {
    const { min, max, preferred } = windowOf({}, 'dis-resistor');
    // The part in place is exact, so that the ends are bounds on the true value.
    const [low, high] = [(min ?? Number.NaN) / 0.95, (max ?? Number.NaN) / 1.05];
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
    expect(window.explanation).toMatch(/wants less than 344\.56 Ω, .* wants more than 720 Ω\.$/);
    expect(window.preferredE96).toEqual([]);
  });

  it('one that is empty for the part’s tolerance alone still lists what a narrower one leaves, and says so', () => {
    // True value between 720 Ω and 20 955·0.035/0.965 = 760 Ω: ± 10 % is too wide, and so is ± 5 %.
    const parts = { 'rise-load': { resistance: q(20_955) }, 'pre-resistor': { resistance: q(740, 0.1) } };
    const window = windowOf({ parts }, 'pre-resistor');
    expect(window).toMatchObject({ empty: true, preferred: [] });
    expect([...window.preferredE96].sort()).toEqual([732, 750]);
    expect(window.explanation).toContain('narrower');
  });

  it('of a part that also loads the rise count what the setting and the timeout ask of it', () => {
    // 1 kΩ and a setting of 0.965 at most: all loads in parallel above 1000·0.965/0.035 = 27 571 Ω; the level alone: 19 kΩ.
    const car: PlainCar = {
      parts: { 'rise-load': null, 'dis-relay': null, 'dis-resistor': { nodes: ['lp', 'ln'], resistance: q(30_000) } },
    };
    const window = windowOf(car, 'dis-resistor');
    expect(window.minBy).toBe('precharge-resistance-max-setting');
    expect(window.min).toBeCloseTo((1000 * 0.965) / 0.035, 4);
    // With a timeout near the five time constants that it takes without a load, the time asks for more.
    const hurried = windowOf({ ...car, precharge: { timeout: 1.7 } }, 'dis-resistor');
    expect(hurried.minBy).toBe('precharge-resistance-max-time');
    // Charging with a load: t = τ·ln(s/(s − p)), s = L/(R + L), τ = C·(R ∥ L).
    const share = (hurried.min ?? Number.NaN) / (1000 + (hurried.min ?? Number.NaN));
    expect(500e-6 * 1000 * share * Math.log(share / (share - 0.96))).toBeCloseTo(1.7, 8);
  });

  it.each(exampleCases.map((each) => [each.id, each] as const))(
    'of %s that are not empty list nothing beyond their own ends',
    (_, { facts }) => {
      for (const { empty, min, max, preferred, preferredE96 } of computeLimits(facts).windows) {
        if (empty) continue;
        for (const value of [...preferred, ...preferredE96]) {
          expect(value).toBeGreaterThan(min ?? 0);
          expect(value).toBeLessThan(max ?? Infinity);
        }
      }
    },
  );

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
    'every value listed for %s keeps every limit on its part over the tolerance of its series',
    (_, { facts }) => {
      const { limits, windows } = computeLimits(facts);
      for (const { element, unit, preferred, preferredE96 } of windows) {
        expect(preferredE96.length).toBeLessThanOrEqual(24);
        const listed = [...preferred.map((value) => [value, 0.05]), ...preferredE96.map((value) => [value, 0.01])];
        for (const record of limits.filter((each) => each.element === element && each.unit === unit)) {
          if (record.value === null) continue;
          for (const [value = Number.NaN, tolerance = 0] of listed) {
            const keeps =
              record.bound === 'max' ? value * (1 + tolerance) < record.value : value * (1 - tolerance) > record.value;
            expect(keeps).toBe(true);
          }
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

describe('what an empty window says', () => {
  it('has words for every limit that can close one', () => {
    const names = limits.filter(({ meta }) => meta.unit !== 'W').map(({ meta }) => meta.name);
    const wordless = names.filter((name) => whoWants(name) === name);
    // Of no resistance and no capacitance: a ratio and a current.
    expect(wordless.sort()).toEqual(['precharge-threshold-setting-min', 'second-contact-inrush-max']);
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
