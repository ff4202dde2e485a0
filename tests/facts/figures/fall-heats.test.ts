import { describe, expect, it } from 'vitest';
import type { Element, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts } from '../../../src/facts/facts.js';
import { accumulator, capacitor, circuitOf, contact, exact, meter, resistor, within } from '../../transient/net.js';
import { random } from '../../transient/random.js';
import { conditions } from '../topology/fixtures.js';

const inside = { zone: 'container' } as const;
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit', releaseTime: 0 } as const;

interface Car {
  readonly volts: Toleranced;
  readonly link: Toleranced;
  readonly esr: Toleranced;
  readonly discharge: Toleranced;
  readonly bleed: Toleranced;
  /** True where the bleed is a discharge resistor itself. */
  readonly bleeds?: boolean;
  /** s; undefined: not stated. */
  readonly release: number | undefined;
}

const mass = { resistance: 2, capacitance: 60 };

const sample: Car = {
  volts: within(600, 0.05),
  link: within(500e-6, 0.2),
  esr: exact(0),
  discharge: within(4000, 0.05),
  bleed: within(47_000, 0.05),
  release: 0.1,
};

function carFacts(
  { volts, link, esr, discharge, bleed, release, bleeds = false }: Car,
  more: readonly Element[] = [],
): Facts {
  const { releaseTime: _, ...unstated } = relay;
  const late = release === undefined ? unstated : { ...relay, releaseTime: release };
  const elements: Element[] = [
    { ...accumulator('pack', 'bp', 'bn', volts), ...inside },
    { ...contact('air-pos', 'bp', 'lp', relay), ...inside },
    { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
    { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
    { ...resistor('pre', 'x', 'lp', exact(1000), { role: 'precharge' }), ...inside },
    capacitor('link', 'lp', 'ln', link, { esr }),
    contact('dis-relay', 'lp', 'd', { ...late, role: 'discharge-relay', rest: 'closed' }),
    resistor('dis', 'd', 'ln', discharge, { role: 'discharge', thermal: mass }),
    bleeds ? resistor('bleed', 'lp', 'ln', bleed, { role: 'discharge' }) : meter('bleed', 'lp', 'ln', bleed),
    ...more,
  ];
  return createFacts({ ...circuitOf(elements, ['lp', 'ln']), ambientMax: 25 }, conditions);
}

const fallOf = (facts: Facts) => facts.falls.find(({ state }) => state.scenario === 'shutdown')!;
const heatOf = (facts: Facts) => fallOf(facts).resistorEnergy.get('dis')!;

/** J by hand: ½·C·U², what the meter has taken of it before the contact closes, and then the discharge resistor's share. */
function byHand(volts: number, farads: number, ohms: number, across: number, late: number): number {
  return 0.5 * farads * volts ** 2 * Math.exp((-2 * late) / (across * farads)) * (across / (across + ohms));
}

describe('the heat of a discharge resistor', () => {
  it('is proved where its contact closes late, and at the corners that the hand formula names', () => {
    const { min, max, bound } = heatOf(carFacts(sample));
    expect(bound).toBe('proved');
    expect(max).toBeCloseTo(byHand(630, 600e-6, 3800, 47_000 * 1.05, 0.1), 9);
    expect(min).toBeCloseTo(byHand(570, 400e-6, 4200, 47_000 * 0.95, 0.1), 9);
  });

  it('counts a release that is not stated from at once to the longest delay', () => {
    const { min, max, bound } = heatOf(carFacts({ ...sample, release: undefined }));
    expect(bound).toBe('proved');
    expect(max).toBeCloseTo(byHand(630, 600e-6, 3800, 47_000 * 1.05, 0), 9);
    expect(min).toBeCloseTo(byHand(570, 400e-6, 4200, 47_000 * 0.95, conditions.maximumReleaseTime), 9);
  });

  it('is bounded at both ends where series resistance takes its share and delays what is lost before', () => {
    const { gap, min, max } = heatOf(carFacts({ ...sample, esr: within(2, 0.5) }));
    // What the two corners of the bound differ by: 1 Ω in some thousand, once in the share and not at all in the delay.
    expect(gap?.max).toBeLessThan(1e-3 * max!);
    expect(gap?.min).toBeLessThan(1e-3 * min!);
  });

  it('finds the summit inside the range of its own resistance', () => {
    // Shorted it sees 2 Ω beside 2 kΩ, open 2 kΩ alone: √(1.998 · 2000) = 63.2 Ω.
    const car = { ...sample, esr: exact(2), bleed: exact(2000), discharge: within(63, 0.5), release: 0 };
    const { max, bound } = heatOf(carFacts(car));
    const most = 0.5 * 600e-6 * 630 ** 2;
    const share = (ohms: number) => {
      const both = (ohms * 2000) / (ohms + 2000);
      return (both / (both + 2)) * (2000 / (2000 + ohms));
    };
    const best = share(Math.sqrt(((2 * 2000) / 2002) * 2000));
    expect(max).toBeCloseTo(most * best, 6);
    expect(bound).toBe('proved');
  });

  it('of a bleed that stays on grows with what another contact waits: by hand before and after it closes', () => {
    const car = { ...sample, bleed: within(9000, 0.05), bleeds: true, release: 0.4 };
    const heat = fallOf(carFacts(car)).resistorEnergy.get('bleed')!;
    const ofBleed = (volts: number, farads: number, ohms: number, dis: number, late: number) => {
      const left = Math.exp((-2 * late) / (ohms * farads));
      return 0.5 * farads * volts ** 2 * (1 - left + (left * dis) / (dis + ohms));
    };
    expect(heat.bound).toBe('proved');
    expect(heat.max).toBeCloseTo(ofBleed(630, 600e-6, 8550, 4200, 0.4), 9);
    expect(heat.min).toBeCloseTo(ofBleed(570, 400e-6, 9450, 3800, 0.4), 9);
    const unstated = fallOf(carFacts({ ...car, release: undefined })).resistorEnergy.get('bleed')!;
    expect(unstated.bound).toBe('proved');
    expect(unstated.max).toBeCloseTo(ofBleed(630, 600e-6, 8550, 4200, conditions.maximumReleaseTime), 9);
    expect(unstated.min).toBeCloseTo(ofBleed(570, 400e-6, 9450, 3800, 0), 9);
  });

  it('of a bypass that the late contact shorts is what it takes before', () => {
    // 3 kΩ across the contact and 500 Ω behind it: until it closes 6/7 of the losses are the bypass's, then none.
    const car = { ...sample, discharge: within(500, 0.2), bleed: exact(1e9), release: 0.5 };
    const facts = carFacts(car, [resistor('bypass', 'lp', 'd', exact(3000), { role: 'discharge', thermal: mass })]);
    const heat = fallOf(facts).resistorEnergy.get('bypass')!;
    const ofBypass = (volts: number, farads: number, dis: number) =>
      0.5 * farads * volts ** 2 * (1 - Math.exp(-1 / ((3000 + dis) * farads))) * (3000 / (3000 + dis));
    expect(heat.max! * (1 + 1e-9)).toBeGreaterThanOrEqual(ofBypass(630, 600e-6, 400));
    expect(heat.min! * (1 - 1e-9)).toBeLessThanOrEqual(ofBypass(570, 400e-6, 600));
    const hottest = fallOf(facts).repeatsPeakTemperature('bypass', 1, 100);
    const single = fallOf(
      carFacts({ ...car, volts: exact(630), link: exact(600e-6), discharge: exact(400) }, [
        resistor('bypass', 'lp', 'd', exact(3000), { role: 'discharge', thermal: mass }),
      ]),
    ).repeatsPeakTemperature('bypass', 1, 100);
    expect(single.nominal).toBeGreaterThan(25.5);
    expect(hottest.max! + 1e-9).toBeGreaterThanOrEqual(single.nominal!);
  });

  it('and its temperature lie within their bounds wherever the parts stand', () => {
    const next = random(311);
    const car = { ...sample, esr: within(5, 0.5), bleed: within(9000, 0.3), release: 0.4 };
    const facts = carFacts(car);
    const heat = heatOf(facts);
    const hottest = fallOf(facts).repeatsPeakTemperature('dis', 3, 20);
    const somewhere = ({ min, max }: Toleranced) => exact(min + (max - min) * next());
    for (let k = 0; k < 60; k += 1) {
      const at = carFacts({
        volts: somewhere(car.volts),
        link: somewhere(car.link),
        esr: somewhere(car.esr),
        discharge: somewhere(car.discharge),
        bleed: somewhere(car.bleed),
        release: 0.4,
      });
      const joules = heatOf(at).nominal!;
      // Relative 1e-9: rounding between one way and another to the same number.
      expect(joules).toBeLessThan(heat.max! * (1 + 1e-9));
      expect(joules).toBeGreaterThan(heat.min! * (1 - 1e-9));
      const celsius = fallOf(at).repeatsPeakTemperature('dis', 3, 20).nominal!;
      expect(celsius).toBeLessThan(hottest.max! + 1e-9);
      expect(celsius).toBeGreaterThan(hottest.min! - 1e-9);
    }
  });
});
