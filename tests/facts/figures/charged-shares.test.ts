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
const relays: readonly Element[] = [
  { ...contact('air-pos', 'bp', 'lp', relay), ...inside },
  { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
  { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
];

interface Car {
  readonly volts: Toleranced;
  readonly pack: Toleranced;
  readonly link: Toleranced;
  readonly discharge: Toleranced;
  readonly bleed: Toleranced;
  /** True where the bleed is a discharge resistor itself. */
  readonly bleeds?: boolean;
}

/** A pack so resistive that what stays across the link keeps it at four fifths of the open-circuit voltage. */
const weak: Car = {
  volts: within(600, 0.05),
  pack: within(1000, 0.2),
  link: within(500e-6, 0.2),
  discharge: within(3000, 0.05),
  bleed: within(4000, 0.1),
};

function factsOf(elements: readonly Element[]): Facts {
  return createFacts({ ...circuitOf(elements, ['lp', 'ln']), ambientMax: 25 }, conditions);
}

function carFacts({ volts, pack, link, discharge, bleed, bleeds = false }: Car): Facts {
  return factsOf([
    { ...accumulator('pack', 'bp', 'bn', volts, pack), ...inside },
    ...relays,
    { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
    capacitor('link', 'lp', 'ln', link),
    contact('dis-relay', 'lp', 'd', { ...relay, role: 'discharge-relay', rest: 'closed' }),
    resistor('dis', 'd', 'ln', discharge, { role: 'discharge' }),
    bleeds ? resistor('bleed', 'lp', 'ln', bleed, { role: 'discharge' }) : meter('bleed', 'lp', 'ln', bleed),
  ]);
}

const shutdown = (facts: Facts) => facts.falls.find(({ state }) => state.scenario === 'shutdown')!;
const timeOf = (facts: Facts) => shutdown(facts).worst!.timeToLimit;
const heatOf = (facts: Facts, id: string) => shutdown(facts).resistorEnergy.get(id)!;

/** V on the link before the fall: the voltage divider of every textbook. */
const start = (volts: number, pack: number, bleed: number): number => (volts * bleed) / (bleed + pack);
const together = (one: number, other: number): number => (one * other) / (one + other);

describe('what a capacitor is charged to', () => {
  it('follows every part that divides the voltage, to the worst corner', () => {
    const time = timeOf(carFacts(weak));
    const slowest = (bleed: number, pack: number, volts: number, farads: number, ohms: number): number =>
      farads * together(bleed, ohms) * Math.log(start(volts, pack, bleed) / conditions.dischargeVoltage);
    expect(time.bound).toBe('proved');
    expect(time.max).toBeCloseTo(slowest(4400, 800, 630, 600e-6, 3150), 9);
    expect(time.min).toBeCloseTo(slowest(3600, 1200, 570, 400e-6, 2850), 9);
  });

  it('is the heat’s too', () => {
    const heat = heatOf(carFacts(weak), 'dis');
    const joules = (bleed: number, pack: number, volts: number, farads: number, ohms: number): number =>
      (0.5 * farads * start(volts, pack, bleed) ** 2 * bleed) / (bleed + ohms);
    expect(heat.bound).toBe('proved');
    expect(heat.max).toBeCloseTo(joules(4400, 800, 630, 600e-6, 2850), 9);
    expect(heat.min).toBeCloseTo(joules(3600, 1200, 570, 400e-6, 3150), 9);
  });

  it('may hang on the resistor that takes the heat, and is bounded then all the same', () => {
    const facts = carFacts({ ...weak, bleeds: true });
    const { bound, gap, min, max } = heatOf(facts, 'bleed');
    expect(bound).toBe('searched');
    expect(gap?.max).not.toBeNull();
    const next = random(11);
    const drawn = ({ min: low, max: high }: Toleranced) => exact(low + (high - low) * Math.round(next()));
    for (let draw = 0; draw < 40; draw += 1) {
      const { volts, pack, link, discharge, bleed } = weak;
      const car = {
        volts: drawn(volts),
        pack: drawn(pack),
        link: drawn(link),
        discharge: drawn(discharge),
        bleed: drawn(bleed),
        bleeds: true,
      };
      const { nominal } = heatOf(carFacts(car), 'bleed');
      expect(nominal).toBeLessThanOrEqual(max! * (1 + 1e-9));
      expect(nominal).toBeGreaterThanOrEqual(min! * (1 - 1e-9));
    }
  });

  // Also where their numbers, which go by the order of ids, follow one another evenly.
  it.each([
    ['one', 'two', 'three', 'four'],
    ['w1', 'w2', 'w3', 'w4'],
  ] as const)('is found of a bridge that only its nominal values balance (%s, %s, %s, %s)', (...arms) => {
    const side = (id: string, from: string, to: string) => meter(id, from, to, within(10_000, 0.1));
    const facts = factsOf([
      { ...accumulator('pack', 'bp', 'bn', within(600, 0.05), exact(0.1)), ...inside },
      ...relays,
      { ...resistor('pre', 'x', 'lp', exact(100), { role: 'precharge' }), ...inside },
      capacitor('link', 'lp', 'ln', exact(500e-6)),
      side(arms[0], 'lp', 'm'),
      side(arms[1], 'm', 'ln'),
      side(arms[2], 'lp', 'k'),
      side(arms[3], 'k', 'ln'),
      capacitor('across', 'm', 'k', exact(100e-6)),
    ]);
    const { nominal, max } = shutdown(facts).voltageAfter(['m', 'k'], 0);
    expect(nominal).toBe(0);
    // One divider at its top and the other at its bottom, of 630 V.
    expect(max).toBeCloseTo((630 * (1.1 - 0.9)) / 2, 1);
  });

  it('is told of an accumulator without resistance on a link without one', () => {
    const facts = factsOf([
      { ...accumulator('pack', 'bp', 'bn', within(600, 0.05)), ...inside },
      ...relays,
      { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
      capacitor('link', 'lp', 'ln', exact(500e-6)),
      capacitor('y-pos', 'lp', 'ch', within(1e-6, 0.2)),
      capacitor('y-neg', 'ln', 'ch', within(1e-6, 0.2)),
      resistor('dis', 'lp', 'ln', within(4000, 0.05), { role: 'discharge' }),
    ]);
    // The link's own fall, which half a microfarad of those in series beside it makes a thousandth longer.
    const seconds = 500.5e-6 * 4000 * Math.log(600 / conditions.dischargeVoltage);
    const link = shutdown(facts).voltages.find(({ id }) => id === 'link')!;
    expect(link.timeToLimit.nominal! / seconds).toBeCloseTo(1, 6);
  });

  // A bank of two halves with a balancing resistor each: the divider of every textbook, before and while a load draws.
  const bank = (more: readonly Element[]) =>
    factsOf([
      { ...accumulator('pack', 'bp', 'bn', within(600, 0.05), exact(0)), ...inside },
      ...relays,
      { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
      capacitor('upper', 'lp', 'm', within(1e-3, 0.1)),
      capacitor('lower', 'm', 'ln', within(1e-3, 0.1)),
      resistor('dis-upper', 'lp', 'm', within(2000, 0.1), { role: 'discharge' }),
      resistor('dis-lower', 'm', 'ln', within(2000, 0.1), { role: 'discharge' }),
      ...more,
    ]);
  const atRelease = (facts: Facts, nodes: readonly [string, string]) => shutdown(facts).voltageAfter(nodes, 0);

  it.each([
    ['nothing', [], 300],
    // 2000 Ω over 2000 ∥ 3000.
    ['a resistance', [load('pump', 'm', 'ln', { resistance: exact(3000) })], 375],
    // Kirchhoff at the middle: v/2000 = (600 − v)/2000 + 0.1.
    ['a current', [load('pump', 'm', 'ln', { current: exact(0.1) })], 400],
    // Below 1 V the load is a resistance of 1 V over 5 A.
    [
      'a current that it cannot bear',
      [load('pump', 'm', 'ln', { current: exact(5) })],
      (600 * 2000) / (2000 + together(0.2, 2000)),
    ],
  ] as const)('lets the upper half of a bank stand as high as %s across the lower one makes it', (_, more, volts) => {
    const facts = bank(more);
    expect(atRelease(facts, ['lp', 'm']).nominal).toBeCloseTo(volts, 9);
    // The load may be off.
    expect(atRelease(facts, ['m', 'ln']).nominal).toBeCloseTo(300, 9);
    // Whatever the halves do, the link stands at what the pack gives.
    expect(atRelease(facts, ['lp', 'ln']).nominal).toBeCloseTo(600, 9);
  });

  it('is watched across the whole bank too, which takes longer than each half', () => {
    const { worst, voltages } = shutdown(bank([]));
    expect(worst?.kind).toBe('link');
    expect(worst?.nodes).toEqual(['lp', 'ln']);
    // Each half by itself through its own resistor, all with one time constant of 2 s at nominal values.
    const seconds = (from: number): number => 2 * Math.log(from / conditions.dischargeVoltage);
    expect(worst?.timeToLimit.nominal).toBeCloseTo(seconds(600), 9);
    expect(voltages.find(({ id }) => id === 'upper')?.timeToLimit.nominal).toBeCloseTo(seconds(300), 9);
  });

  it.each([0.29, 0.298, 0.3])('is at most the pack beside a current of about what its halves bear: %d A', (amperes) => {
    // v/2000 = (600 − v)/2000 + I for the upper half: 600 V at 0.3 A, where the load has pulled the lower one down to its knee.
    const { min, max } = atRelease(bank([load('pump', 'm', 'ln', { current: within(amperes, 0.1) })]), ['lp', 'm']);
    expect(max!).toBeLessThanOrEqual(630);
    expect(min!).toBeLessThan(0.95 * (300 + 1000 * amperes));
  });

  it('is no more of a capacitor that is full without the load', () => {
    // The lower half has nothing across it but the load: without that all of 600 V, with it the half of them.
    const facts = factsOf([
      { ...accumulator('pack', 'bp', 'bn', exact(600), exact(0)), ...inside },
      ...relays,
      { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
      capacitor('upper', 'lp', 'm', exact(1e-3)),
      capacitor('lower', 'm', 'ln', exact(1e-3)),
      resistor('dis', 'lp', 'm', exact(2000), { role: 'discharge' }),
      load('pump', 'm', 'ln', { resistance: exact(2000) }),
    ]);
    expect(atRelease(facts, ['lp', 'ln']).nominal).toBeCloseTo(600, 9);
    expect(atRelease(facts, ['lp', 'm']).nominal).toBeCloseTo(300, 9);
    expect(atRelease(facts, ['m', 'ln']).nominal).toBeCloseTo(600, 9);
  });

  it('hangs on the load of a capacitor that only the load charges', () => {
    // 800 µF through 1 kΩ of its own; at the load it is a divider: the corner of the largest share and of the slowest fall.
    const facts = factsOf([
      { ...accumulator('pack', 'bp', 'bn', within(600, 0.05), exact(0)), ...inside },
      ...relays,
      { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
      capacitor('link', 'lp', 'ln', exact(0.5e-3)),
      resistor('series', 'lp', 'm', within(1000, 0.1)),
      capacitor('over', 'lp', 'm', exact(0.8e-3)),
      load('heater', 'm', 'ln', { resistance: within(1000, 0.2) }),
    ]);
    const { min, max } = shutdown(facts).voltages.find(({ id }) => id === 'over')!.timeToLimit;
    const seconds = (volts: number, series: number, heater: number): number =>
      series * 0.8e-3 * Math.log((volts * series) / (series + heater) / conditions.dischargeVoltage);
    expect(max).toBeCloseTo(seconds(630, 1100, 800), 6);
    expect(min).toBeCloseTo(seconds(570, 900, 1200), 6);
  });

  it('bounds the heat by what the halves hold, each at its own most', () => {
    // All of it goes into the two resistors; the upper half at most 630·2200/(2200 + 1800), and so the lower one.
    const most = 2 * 0.5 * 1.1e-3 * ((630 * 2200) / 4000) ** 2;
    const { max, gap } = heatOf(bank([]), 'dis-upper');
    expect(gap?.max).not.toBeNull();
    expect(max! / most).toBeCloseTo(1, 9);
  });

  it('starts a fall from one state, not from what each half stands at in another', () => {
    const loads = ['upper', 'lower'].map((half) =>
      load(`pump-${half}`, half === 'upper' ? 'lp' : 'm', half === 'upper' ? 'm' : 'ln', { resistance: exact(3000) }),
    );
    const facts = bank(loads);
    for (const half of [
      ['lp', 'm'],
      ['m', 'ln'],
    ] as const)
      expect(atRelease(facts, half).nominal).toBeCloseTo(375, 9);
    expect(atRelease(facts, ['lp', 'ln']).nominal).toBeCloseTo(600, 9);
    // 1200 Ω of 3200 across one half and the other full: what each capacitor holds goes into its own resistor.
    expect(heatOf(facts, 'dis-upper').nominal).toBeCloseTo(0.5 * 1e-3 * 375 ** 2, 6);
    expect(shutdown(facts).continuousPower.get('dis-upper')!.nominal).toBeCloseTo(375 ** 2 / 2000, 6);
  });

  it('bounds what a half of a bank stands at beside a load, whatever the parts', () => {
    const ohms = within(3000, 0.2);
    const upper = atRelease(bank([load('pump', 'm', 'ln', { resistance: ohms })]), ['lp', 'm']);
    const lower = together(1800, ohms.min);
    expect(upper.max).toBeCloseTo((630 * 2200) / (2200 + lower), 6);
  });
});
