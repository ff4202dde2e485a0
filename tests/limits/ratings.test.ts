import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Resistor } from '../../src/circuit/model.js';
import { judgePower as judge } from '../../src/limits/judgement.js';
import { permanentAllowance } from '../../src/limits/ratings/permanent-allowance.js';
import { timedAllowance } from '../../src/limits/ratings/timed-allowance.js';
import { availablePower } from '../../src/rules/available-power.js';
import { judgePower } from '../../src/rules/judge-power.js';
import { figure } from '../rules/figures.js';
import { plainCircuit } from './plain-car.js';

const circuit = plainCircuit();
const withoutAmbient = { ...circuit };
delete (withoutAmbient as { ambientMax?: number }).ambientMax;

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
    const [base] = circuit.elements.filter(({ id }) => id === 'pre-resistor');
    return {
      ...base,
      ...stated({ technology, mounting, ambientMax }),
      ...(technology === undefined ? { technology: undefined } : {}),
      ratings: stated(ratings),
      thermal: stated({ resistance, capacitance, maxTemperature }),
    } as unknown as Resistor;
  });

/** The rules and the limits each know what a resistor stands; a limit serves its rule only as long as they agree. */
describe('what a resistor stands is the same for a limit and its rule', () => {
  it('permanently', () => {
    fc.assert(
      fc.property(resistors, fc.boolean(), (resistor, ambient) => {
        const car = ambient ? circuit : withoutAmbient;
        const { atLeast, atMost, missing } = availablePower(resistor, car);
        expect(permanentAllowance(resistor, car)).toEqual({ atLeast, atMost, missing });
      }),
      { numRuns: 500 },
    );
  });

  it('for a time, and so is the judgement of a power', () => {
    const times = fc.option(fc.double({ min: 0.01, max: 100, noNaN: true }), { nil: null });
    fc.assert(
      fc.property(resistors, times, watts, fc.boolean(), (resistor, time, power, ambient) => {
        const car = ambient ? circuit : withoutAmbient;
        const rule = judgePower(resistor, car, figure(power), time);
        const allowance = timedAllowance(resistor, car, time);
        expect([allowance.atLeast, allowance.atMost]).toEqual([rule.atLeast, rule.atMost]);
        const { satisfied, missing } = judge(figure(power), allowance);
        expect({ true: 'met', false: 'violated', null: 'undetermined' }[String(satisfied)]).toBe(rule.status);
        expect(missing).toEqual(rule.missing);
      }),
      { numRuns: 500 },
    );
  });
});
