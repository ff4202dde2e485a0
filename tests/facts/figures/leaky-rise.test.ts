import { describe, expect, it } from 'vitest';
import type { Element, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts } from '../../../src/facts/facts.js';
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
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit', releaseTime: 0 } as const;

/** The parts with a range; the car has two inverters on cables, and its loads at one of three places. */
const ranges = {
  volts: within(600, 0.1),
  pre: within(1000, 0.1),
  bleed: within(47_000, 0.1),
  left: within(3e-4, 0.2),
  right: within(2e-4, 0.2),
  esr: within(0.005, 0.5),
  cable: within(0.02, 0.5),
};
type Parts = typeof ranges;

function facts(parts: Parts, draws: readonly Element[]): Facts {
  const elements: Element[] = [
    { ...accumulator('pack', 'bp', 'bn', parts.volts), ...inside },
    { ...contact('air-pos', 'bp', 'lp', relay), ...inside },
    { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
    { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
    {
      ...resistor('pre', 'x', 'lp', parts.pre, { role: 'precharge', thermal: { resistance: 2, capacitance: 60 } }),
      ...inside,
    },
    resistor('cable', 'lp', 'rp', parts.cable),
    capacitor('left', 'lp', 'ln', parts.left, { esr: parts.esr }),
    capacitor('right', 'rp', 'ln', parts.right),
    meter('bleed', 'lp', 'ln', parts.bleed),
    ...draws,
  ];
  return createFacts({ ...circuitOf(elements, ['lp', 'ln']), ambientMax: 25 }, conditions);
}

const somewhere = (next: () => number, { min, max }: Toleranced): Toleranced => exact(min + (max - min) * next());
const drawn = (next: () => number): Parts =>
  Object.fromEntries(Object.entries(ranges).map(([name, range]) => [name, somewhere(next, range)])) as Parts;

interface Draw {
  /** What is proved of the end: the cable ahead of a load takes from the link's voltage and hands it less to feed. */
  readonly end: 'proved' | 'searched';
  readonly name: string;
  readonly element: (value: Toleranced) => Element;
  readonly value: Toleranced;
}

// 600 V behind 1 kΩ give at most 90 W: some of these cars stall, and some do not.
const draws: readonly Draw[] = [
  {
    name: '85 W at the link',
    end: 'proved',
    value: within(85, 0.1),
    element: (power) => load('fan', 'lp', 'ln', { power }),
  },
  {
    name: '60 W behind a cable',
    end: 'searched',
    value: within(60, 0.2),
    element: (power) => load('fan', 'rp', 'ln', { power }),
  },
  {
    name: '0.2 A at the link',
    end: 'proved',
    value: within(0.2, 0.5),
    element: (current) => load('fan', 'lp', 'ln', { current }),
  },
];

describe('a rise with a load that draws from the start', () => {
  it.each(draws)('gets to a voltage and has a peak within their bounds: $name', ({ end, value, element }) => {
    const next = random(411);
    const { rise } = facts(ranges, [element(value)]);
    const figures = ['steadyRatio', 'peakCurrent', 'resistorPeakPower'] as const;
    expect(rise.steadyRatio.bound).toBe(end);
    expect(rise.peakCurrent.bound).toBe('proved');
    for (let k = 0; k < 40; k += 1) {
      const one = facts(drawn(next), [element(somewhere(next, value))]).rise;
      for (const figure of figures) {
        const { nominal } = one[figure];
        const { min, max } = rise[figure];
        // The load is followed to 2e-8 of the source.
        expect(nominal, figure).toBeLessThan(max! * (1 + 1e-7) + 1e-9);
        expect(nominal, figure).toBeGreaterThan(min! * (1 - 1e-7) - 1e-9);
      }
    }
  });

  it('stalls at the knee, far below the upper equilibrium that the quadratic gives', () => {
    // U/2 + √(U²/4 − P·R).
    const plain = { ...ranges, bleed: exact(1e9), cable: exact(0), esr: exact(0) };
    const { rise } = facts(plain, [load('fan', 'lp', 'ln', { power: exact(50) })]);
    const high = 660;
    // The highest ratio: 660 V behind 900 Ω. The rise never gets there: from 0 on it stalls at the knee, where 50 W take 50 A.
    const root = high / 2 + Math.sqrt(high ** 2 / 4 - 50 * 900);
    expect(rise.steadyRatio.max!).toBeLessThan((0.01 * root) / high);
  });

  it.each([
    ['one that sleeps', load('fan', 'lp', 'ln', { power: within(20, 0.1), startsAbove: 300 })],
    ['one from the positive side of the cable to its other', load('fan', 'lp', 'rp', { current: within(0.01, 0.1) })],
    ['one the wrong way round', load('fan', 'ln', 'lp', { power: within(20, 0.1) })],
  ])('is not proved to be so with %s', (_, element) => {
    expect(facts(ranges, [element]).rise.steadyRatio.bound).toBe('searched');
  });

  it('is not proved where the load could bend the voltage behind the resistance that it sees', () => {
    // 400 W at 1 V: 2.5 mΩ; the cable has up to 30 mΩ.
    const far = load('fan', 'rq', 'ln', { power: within(400, 0.1) });
    const cars = facts(ranges, [far, resistor('far', 'rp', 'rq', within(0.02, 0.5))]);
    expect(cars.rise.steadyRatio.bound).toBe('searched');
  });
});

describe('what such a load must not hide', () => {
  it('is a power that peaks where the resistor meets what it sees, at its range’s middle', () => {
    // Behind 100 Ω of the capacitor's own the load holds its current from the start: the resistor of 50 Ω sees 100 Ω, not the load's knee.
    const parts = { ...ranges, pre: within(50, 0.2), esr: exact(100) };
    const fan = (value: Toleranced) => load('fan', 'lp', 'ln', { current: value });
    const { min, max } = facts(parts, [fan(within(0.1, 0.1))]).rise.resistorPeakPower;
    const next = random(413);
    for (let k = 0; k < 40; k += 1) {
      const drawn = Object.fromEntries(Object.entries(parts).map(([name, range]) => [name, somewhere(next, range)]));
      const { nominal } = facts(drawn as Parts, [fan(somewhere(next, within(0.1, 0.1)))]).rise.resistorPeakPower;
      expect(nominal).toBeLessThan(max! * (1 + 1e-6));
      expect(nominal).toBeGreaterThan(min! * (1 - 1e-6));
    }
  });

  it('is hidden by no load of another phase on the same nodes', () => {
    const far = { ...ranges, cable: within(900, 0.5) };
    const fan = load('fan', 'rp', 'ln', { power: within(0.04, 0.1) });
    const idle = load('a-heater', 'rp', 'ln', { power: exact(50), activeIn: ['drive'] });
    const { steadyRatio } = facts(far, [fan]).rise;
    const beside = facts(far, [fan, idle]).rise.steadyRatio;
    expect([beside.bound, beside.min, beside.max]).toEqual([steadyRatio.bound, steadyRatio.min, steadyRatio.max]);
    expect(beside.bound).toBe('searched');
  });
});

describe('a capacitor to a node that nothing else touches', () => {
  it('changes nothing of the rise', () => {
    const { rise } = facts(ranges, []);
    const beside = facts(ranges, [capacitor('y', 'lp', 'ch', within(1e-7, 0.2))]).rise;
    expect(beside.steadyRatio.min).toBeCloseTo(rise.steadyRatio.min!, 9);
    expect(beside.steadyRatio.max).toBeCloseTo(rise.steadyRatio.max!, 9);
    expect(beside.peakCurrent.max).toBeCloseTo(rise.peakCurrent.max!, 9);
  });
});

describe('the slowest time constant of two capacitors', () => {
  it('grows with every resistance and capacitance', () => {
    const next = random(412);
    const { rise } = facts(ranges, []);
    for (let k = 0; k < 60; k += 1) {
      const { nominal } = facts(drawn(next), []).rise.timeConstant;
      expect(nominal).toBeLessThan(rise.timeConstant.max! * (1 + 1e-9));
      expect(nominal).toBeGreaterThan(rise.timeConstant.min! * (1 - 1e-9));
    }
    // Its upper end lies on the slowest mode of all, whether the link shows that or not, so that nothing is left between.
    expect(rise.timeConstant.gap).toEqual({ min: null, max: 0 });
    // The two capacitors as one, by hand: (R ∥ bleed)·(C₁ + C₂); the cable and the ESR are hundredths of an ohm.
    const both = 1 / (1 / 1100 + 1 / 51_700);
    expect(rise.timeConstant.max! / (both * 6e-4)).toBeCloseTo(1, 4);
  });

  it('is the link’s, not that of what capacitors to the chassis do among themselves', () => {
    const floating = [
      capacitor('y-pos', 'lp', 'ch', within(1e-6, 0.2)),
      capacitor('y-neg', 'ln', 'ch', within(1e-6, 0.2)),
      meter('leak-pos', 'lp', 'ch', exact(2e6)),
      meter('leak-neg', 'ln', 'ch', exact(2e6)),
    ];
    const plain = facts(ranges, []).rise.timeConstant;
    const { nominal, max } = facts(ranges, floating).rise.timeConstant;
    // They add a thousandth to the capacitance; alone they take 2 s.
    expect(nominal! / plain.nominal!).toBeCloseTo(1, 2);
    expect(max! / plain.max!).toBeCloseTo(1, 2);
  });
});
