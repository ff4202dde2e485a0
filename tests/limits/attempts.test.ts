import { describe, expect, it } from 'vitest';
import { judgePrechargeResistor } from '../../src/limits/judge-precharge-resistor.js';
import { temperatureRise } from '../../src/limits/ratings/temperature-rise.js';
import { timedAllowance } from '../../src/limits/ratings/timed-allowance.js';
import { rule } from '../../src/rules/rules/precharge-resistor-rating.js';
import type { Resistor } from '../../src/circuit/model.js';
import { soundCircuit } from '../rules/sound-car.js';
import { soundFacts, student2020 } from '../rules/sound-facts.js';

const thermal = { resistance: 2, capacitance: 60 };

// Source: first-order heating and the geometric sum, textbook.
describe('power that comes again', () => {
  it.each([
    [60, 3, 150],
    [5, 10, 5],
    [1, 1000, 40],
  ])('for %d s, %d times, every %d s, adds up what is left of each', (time, count, interval) => {
    const one = -2 * Math.expm1(-time / 120);
    let perWatt = 0;
    for (let k = 0; k < count; k += 1) perWatt = perWatt * Math.exp(-interval / 120) + one;
    expect(temperatureRise(thermal, time, { count, interval })?.perWatt).toBeCloseTo(perWatt, 10);
  });

  it('follows at once where it lasts longer than its interval', () => {
    expect(temperatureRise(thermal, 20, { count: 3, interval: 7 })?.perWatt).toBeCloseTo(
      temperatureRise(thermal, 60)?.perWatt ?? 0,
      12,
    );
  });

  it('is kept whole where nothing says how the heat goes, and settles where nothing says how much is held', () => {
    expect(temperatureRise({ capacitance: 60 }, 5, { count: 3, interval: 60 })).toEqual({
      perWatt: 0.25,
      exact: false,
    });
    expect(temperatureRise({ resistance: 2 }, 5, { count: 3, interval: 60 })).toEqual({ perWatt: 2, exact: false });
  });

  it('is covered by an overload rating only where that lasts for all of it together', () => {
    const circuit = soundCircuit({ 'r-pre': { thermal: undefined } });
    const part = circuit.elements.find(({ id }) => id === 'r-pre') as Resistor;
    expect(timedAllowance(part, circuit, 2.5, { count: 2, interval: 60 }).atLeast).toBe(500);
    expect(timedAllowance(part, circuit, 2.5, { count: 3, interval: 60 }).atLeast).toBe(100);
  });
});

describe('attempts into a short', () => {
  const outcomes = { met: true, violated: false, undetermined: null } as const;
  const cases = [1, 5, 60, 200].flatMap((timeout) =>
    [undefined, 1, 3].flatMap((attempts) =>
      [undefined, 0, 110, 150].flatMap((retryInterval) =>
        [thermal, { ...thermal, maxTemperature: 240 }, { capacitance: 60, maxTemperature: 240 }, undefined].map(
          (mass) => ({ timeout, attempts, retryInterval, mass }),
        ),
      ),
    ),
  );

  it('are judged by the limits as by the rule', () => {
    const seen = new Set<string>();
    for (const { mass, ...precharge } of cases) {
      const facts = soundFacts({ circuit: soundCircuit({ 'r-pre': { thermal: mass } }, { precharge }) });
      const part = facts.circuit.elements.find(({ id }) => id === 'r-pre') as Resistor;
      const { status } = rule.check(facts, student2020, () => []);
      if (status === 'not-applicable') throw new Error('the rule applies');
      seen.add(status);
      expect(judgePrechargeResistor(part, facts.circuit, facts.rise).satisfied).toBe(outcomes[status]);
    }
    expect([...seen].sort()).toEqual(['met', 'undetermined', 'violated']);
  });
});
