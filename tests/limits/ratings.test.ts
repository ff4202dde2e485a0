import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Resistor } from '../../src/circuit/model.js';
import { judgePower as judge } from '../../src/limits/judgement.js';
import { permanentAllowance } from '../../src/limits/ratings/permanent-allowance.js';
import { temperatureRise } from '../../src/limits/ratings/temperature-rise.js';
import { timedAllowance } from '../../src/limits/ratings/timed-allowance.js';
import { judgePower } from '../../src/rules/judge-power.js';
import { figure } from '../rules/figures.js';
import { plainCircuit } from './plain-car.js';

const circuit = plainCircuit();
const [plain] = circuit.elements.filter(({ id }) => id === 'pre-resistor');
const resistor = (fields: object): Resistor =>
  ({ ...plain, ratings: undefined, thermal: undefined, mounting: 'as-rated', ...fields }) as unknown as Resistor;

/** 50 W in full up to 25 °C, nothing at 250 °C: a chassis-mounted wirewound’s line (MIL-PRF-39009E 3.14). */
const wirewound = { power: 50, powerFreeAir: 16, fullPowerUpTo: 25, zeroPowerAt: 250 };

describe('what a resistor stands permanently', () => {
  // (250 − ambient)/225 of the rating, by the line.
  it.each([
    [-20, 50],
    [25, 50],
    [70, 40],
    [115, 30],
    [250, 0],
    [300, 0],
  ])('at %d °C is %d W', (ambientMax, watts) => {
    const { atLeast, atMost, missing } = permanentAllowance(resistor({ ambientMax, ratings: wirewound }), circuit);
    expect(atLeast).toBeCloseTo(watts, 10);
    expect(atMost).toBeCloseTo(watts, 10);
    expect(missing).toEqual([]);
  });

  it.each<[string, object, number, number, readonly string[]]>([
    ['in free air the free-air rating', { mounting: 'free-air' }, 16, 16, []],
    [
      'on a structure, of unknown heat path, between the two',
      { mounting: 'structure' },
      16,
      50,
      ['/thermal/resistance', '/thermal/maxTemperature'],
    ],
    [
      'with the mounting not stated between the two',
      { mounting: undefined, technology: 'wirewound' },
      16,
      50,
      ['/mounting'],
    ],
    // (200 − 25)/5 W by Ohm’s law of heat.
    [
      'on a heat sink of 5 K/W up to 200 °C',
      { mounting: 'heat-sink', thermal: { resistance: 5, maxTemperature: 200 } },
      35,
      35,
      [],
    ],
    [
      'never more than its rating',
      { mounting: 'heat-sink', thermal: { resistance: 1, maxTemperature: 200 } },
      50,
      50,
      [],
    ],
    ['without any rating by its heat', { ratings: {}, thermal: { resistance: 5, maxTemperature: 200 } }, 35, 35, []],
    ['with nothing stated nothing surely', { ratings: {} }, 0, Infinity, ['/ratings/power']],
  ])('is %s', (_, fields, atLeast, atMost, missing) => {
    const part = resistor({ ambientMax: 25, ratings: wirewound, ...fields });
    const allowance = permanentAllowance(part, circuit);
    expect(allowance).toEqual({ atLeast, atMost, missing: missing.map((field) => `${part.pointer}${field}`) });
  });

  it('lies between nothing and the whole rating while its ambient is not stated', () => {
    const { ambientMax: _, ...withoutAmbient } = circuit;
    const part = resistor({ ambientMax: undefined, ratings: wirewound });
    expect(permanentAllowance(part, withoutAmbient)).toEqual({
      atLeast: 0,
      atMost: 50,
      missing: [`${part.pointer}/ambientMax`],
    });
  });
});

describe('what a resistor stands for a time', () => {
  const thermal = { resistance: 5, capacitance: 20, maxTemperature: 225 };

  // First-order heating, textbook: after one time constant of 100 s 63.212 % of the final rise, so 40 W / 0.63212.
  it('is more than permanently by what its mass takes up', () => {
    const part = resistor({ ambientMax: 25, ratings: { ...wirewound, power: 40 }, thermal });
    expect(timedAllowance(part, circuit, 100).atLeast).toBeCloseTo(40 / 0.632_120_558_829, 9);
    expect(timedAllowance(part, circuit, 1e9).atLeast).toBeCloseTo(40, 9);
    expect(timedAllowance(part, circuit, null).atLeast).toBe(40);
  });

  // MIL-PRF-39009E 4.8.8: five times the rating for five seconds; it says nothing of a longer time.
  it('is an overload rating of at least that time, and no shorter one', () => {
    const part = resistor({ ambientMax: 25, ratings: { ...wirewound, overload: { factor: 5, duration: 5 } } });
    expect(timedAllowance(part, circuit, 5)).toEqual({ atLeast: 250, atMost: 250, missing: [] });
    expect(timedAllowance(part, circuit, 5.1)).toMatchObject({ atLeast: 50, atMost: Infinity });
  });

  it('is sure but not exact while heat is let go of in a way that is not stated', () => {
    expect(temperatureRise({ capacitance: 20 }, 10)).toEqual({ perWatt: 0.5, exact: false });
    expect(temperatureRise({ resistance: 5 }, 10)).toEqual({ perWatt: 5, exact: false });
    expect(temperatureRise({}, 10)).toBeUndefined();
  });
});

const watts = fc.double({ min: 0.1, max: 500, noNaN: true });
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

/** Any resistor with any of the fields that its power depends on stated or not. */
const resistors = fc
  .record({
    technology: maybe(fc.constantFrom('wirewound' as const, 'film' as const)),
    mounting: maybe(
      fc.constantFrom('as-rated' as const, 'heat-sink' as const, 'structure' as const, 'free-air' as const),
    ),
    ambientMax: maybe(fc.double({ min: 0, max: 150, noNaN: true })),
    power: maybe(watts),
    powerFreeAir: maybe(watts),
    fullPowerUpTo: maybe(fc.double({ min: 20, max: 100, noNaN: true })),
    zeroPowerAt: maybe(fc.double({ min: 120, max: 300, noNaN: true })),
    overload: maybe(fc.record({ factor: fc.double({ min: 0.5, max: 10, noNaN: true }), duration: watts })),
    resistance: maybe(fc.double({ min: 0.1, max: 50, noNaN: true })),
    capacitance: maybe(watts),
    maxTemperature: maybe(fc.double({ min: 120, max: 300, noNaN: true })),
  })
  .map(({ technology, mounting, ambientMax, resistance, capacitance, maxTemperature, ...ratings }) => {
    const stated = (fields: object) =>
      Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
    return {
      ...plain,
      ...stated({ technology, mounting, ambientMax }),
      ...(technology === undefined ? { technology: undefined } : {}),
      ratings: stated(ratings),
      thermal: stated({ resistance, capacitance, maxTemperature }),
    } as unknown as Resistor;
  });
const times = fc.option(fc.double({ min: 0.01, max: 100, noNaN: true }), { nil: null });

describe('any resistor', () => {
  it('stands for a time at least what it stands for ever, and surely no more than at most', () => {
    fc.assert(
      fc.property(resistors, times, (part, time) => {
        const permanent = permanentAllowance(part, circuit);
        const { atLeast, atMost, missing } = timedAllowance(part, circuit, time);
        expect(atLeast).toBeGreaterThanOrEqual(permanent.atLeast);
        expect(atMost).toBeGreaterThanOrEqual(atLeast);
        if (missing.length === 0) expect(atMost).toBe(atLeast);
      }),
      { numRuns: 500, seed: 39_009 },
    );
  });

  it('is judged alike by a limit and by its rule', () => {
    fc.assert(
      fc.property(resistors, times, watts, (part, time, power) => {
        const rule = judgePower(part, circuit, figure(power), time);
        const { satisfied, missing } = judge(figure(power), timedAllowance(part, circuit, time));
        expect({ true: 'met', false: 'violated', null: 'undetermined' }[String(satisfied)]).toBe(rule.status);
        expect(missing).toEqual(rule.missing);
      }),
      { numRuns: 500, seed: 39_009 },
    );
  });
});
