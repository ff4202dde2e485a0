import { describe, expect, it } from 'vitest';
import type { Element, Load, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Rise } from '../../../src/facts/facts.js';
import { integral } from '../../../src/facts/figures/integral.js';
import {
  accumulator,
  capacitor,
  circuitOf,
  contact,
  exact,
  load,
  meter,
  resistor,
  within,
} from '../../transient/net.js';
import { random } from '../../transient/random.js';
import { conditions } from '../topology/fixtures.js';

const inside = { zone: 'container' } as const;
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit' } as const;

interface Car {
  readonly volts: Toleranced;
  readonly pre: Toleranced;
  readonly farads: Toleranced;
  readonly esr: Toleranced;
  readonly leak: Toleranced;
  readonly draws: Partial<Load>;
}

function riseOf({ volts, pre, farads, esr, leak, draws }: Car): Rise {
  const elements: readonly Element[] = [
    { ...accumulator('pack', 'bp', 'bn', volts, exact(0.2)), ...inside },
    { ...contact('air-pos', 'bp', 'lp', relay), ...inside },
    { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
    { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
    { ...resistor('pre', 'x', 'lp', pre, { role: 'precharge' }), ...inside },
    capacitor('link', 'lp', 'ln', farads, { esr }),
    meter('leak', 'lp', 'ln', leak),
    load('converter', 'lp', 'ln', draws),
  ];
  return createFacts(circuitOf(elements, ['lp', 'ln']), conditions).rise;
}

describe('a rise in which a load wakes', () => {
  it('ends no lower than at the lowest voltage that still wakes a constant power (divider with a power, textbook)', () => {
    const [power, ohms] = [7.5, 470];
    const rise = riseOf({
      volts: { min: 288, nominal: 360, max: 403.2, toleranceStated: true },
      pre: within(ohms, 0.05),
      farads: within(3e-4, 0.1),
      esr: exact(3e-3),
      leak: within(2e6, 0.01),
      draws: { power: exact(power), startsAbove: 300, stopsBelow: 250 },
    });
    // Just below 300 V it never wakes; at 300 V x·(1 − x)·U²/R = P. What the leak and the pack take is far below the tolerance here.
    const series = ohms * 1.05 + 0.2;
    const lowest = (1 + Math.sqrt(1 - (4 * power * series) / 300 ** 2)) / 2;
    expect(rise.steadyRatio.gap?.min).not.toBeNull();
    expect(rise.steadyRatio.min!).toBeLessThan(lowest);
    expect(rise.steadyRatio.min!).toBeGreaterThan(lowest - 1e-3);
  });

  it.each([1e-6, 1e-3, 0.1])('does not keep a load at work below where it stops: ESR %d Ω', (ohms) => {
    const rise = (stopsBelow: number): Rise =>
      riseOf({
        volts: exact(360),
        pre: exact(520),
        farads: exact(250e-6),
        esr: exact(ohms),
        leak: exact(800e3),
        draws: { resistance: exact(2624), startsAbove: 348, stopsBelow },
      });
    // It cannot be fed at 348 V, and what the ESR takes off as it starts is enough to stop it.
    expect(rise(348).steadyRatio.reason).toBe('no-state-holds');
    // From 347.9 V on it is off again, and the link gets to 348 V time and again.
    expect(rise(347.9).steadyRatio.nominal).toBeCloseTo(348 / 360, 9);
  });

  it('lies within what bounds it, wherever the parts lie in their ranges', () => {
    const next = random(21);
    const between = (low: number, high: number): number => low * (high / low) ** next();
    const drawn = ({ min, max }: Toleranced): Toleranced =>
      exact(min + (max - min) * (next() < 0.5 ? next() : Math.round(next())));
    let bounded = 0;
    for (let count = 0; count < 24; count += 1) {
      const volts = between(100, 600);
      const ohms = between(50, 3000);
      const startsAbove = volts * (0.3 + 0.6 * next());
      const size = next();
      const range = { startsAbove, stopsBelow: startsAbove * next() };
      const value =
        size < 0.5
          ? { power: within(between(0.02, 0.8) * ((volts * volts) / 4 / ohms), 0.1) }
          : size < 0.8
            ? { current: within((between(0.02, 0.4) * volts) / ohms, 0.1) }
            : { resistance: within(between(5, 100) * ohms, 0.1) };
      const car: Car = {
        volts: { min: volts * (1 - 0.3 * next()), nominal: volts, max: volts * 1.1, toleranceStated: true },
        pre: within(ohms, 0.1),
        farads: within(between(1e-4, 1e-3), 0.2),
        esr: within(between(1e-3, 0.1), 0.3),
        leak: within(between(20e3, 500e3), 0.05),
        draws: { ...value, ...range },
      };
      const { timeToThreshold: time, steadyRatio: ratio } = riseOf(car);
      if (time.gap?.max !== null && time.gap !== undefined) bounded += 1;
      for (let draw = 0; draw < 12; draw += 1) {
        const part = Object.fromEntries(Object.entries(value).map(([name, each]) => [name, drawn(each)]));
        const rise = riseOf({
          volts: drawn(car.volts),
          pre: drawn(car.pre),
          farads: drawn(car.farads),
          esr: drawn(car.esr),
          leak: drawn(car.leak),
          draws: { ...part, ...range },
        });
        expect(ratio.min).not.toBeNull();
        if (rise.steadyRatio.nominal !== null)
          expect(rise.steadyRatio.nominal).toBeGreaterThanOrEqual(ratio.min! * (1 - 1e-9));
        if (rise.timeToThreshold.reason === undefined || rise.timeToThreshold.reason === 'never')
          expect(rise.timeToThreshold.nominal ?? Infinity).toBeLessThanOrEqual((time.max ?? Infinity) * (1 + 1e-9));
      }
    }
    expect(bounded).toBeGreaterThan(10);
  });
});

describe('the integral', () => {
  it.each([
    ['1/x from 1 to 1000', (x: number) => 1 / x, 1, 1000, Math.log(1000)],
    ['e^x from 0 to 3', Math.exp, 0, 3, Math.expm1(3)],
    ['next to a pole', (x: number) => 1 / (1 + 1e-6 - x), 0, 1, Math.log((1 + 1e-6) / 1e-6)],
  ] as const)('of %s', (_, f, from, to, wanted) => {
    expect(integral(f, from, to) / wanted).toBeCloseTo(1, 8);
  });
});
