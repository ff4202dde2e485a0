import { describe, expect, it } from 'vitest';
import type { Element, ResolvedCircuit, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts } from '../../../src/facts/facts.js';
import { accumulator, capacitor, circuitOf, contact, exact, meter, resistor, within } from '../../transient/net.js';
import { decades, random } from '../../transient/random.js';
import { conditions } from '../topology/fixtures.js';

interface Values {
  readonly volts: Toleranced;
  readonly pre: Toleranced;
  readonly link: Toleranced;
  readonly discharge: Toleranced;
  readonly meter?: Toleranced;
}

interface Thermal {
  readonly resistance?: number;
  readonly capacitance?: number;
}

const inside = { zone: 'container' } as const;
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit', releaseTime: 0 } as const;

function car(values: Values, thermal: Thermal, ambientMax?: number): ResolvedCircuit {
  const ambient = ambientMax === undefined ? {} : { ambientMax };
  const elements: Element[] = [
    { ...accumulator('pack', 'bp', 'bn', values.volts), ...inside },
    { ...contact('air-pos', 'bp', 'lp', relay), ...inside },
    { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
    { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
    { ...resistor('pre', 'x', 'lp', values.pre, { role: 'precharge', thermal }), ...inside },
    capacitor('link', 'lp', 'ln', values.link),
    contact('dis-relay', 'lp', 'd', { ...relay, role: 'discharge-relay', rest: 'closed' }),
    resistor('dis', 'd', 'ln', values.discharge, { role: 'discharge', thermal }),
    ...(values.meter === undefined ? [] : [meter('meter', 'lp', 'ln', values.meter)]),
  ];
  return { ...circuitOf(elements, ['lp', 'ln']), ...ambient };
}

/** 600 V, 500 µF, 1 kΩ; 4 kΩ of discharge. */
const sample: Values = { volts: exact(600), pre: exact(1000), link: exact(500e-6), discharge: exact(4000) };
const mass = { resistance: 2, capacitance: 60 };
const factsOf = (values: Values, thermal: Thermal = mass, ambient: number | undefined = 25) =>
  createFacts(car(values, thermal, ambient), conditions);
const repeats = (facts: Facts, count: number, interval: number) =>
  facts.falls.find(({ state }) => state.scenario === 'shutdown')?.repeatsPeakTemperature('dis', count, interval);

/** °C above ambient after t s of W·e^(−rate·t) into 60 J/K with 120 s: two exponentials in a chain, textbook. */
const rise = (watts: number, rate: number, t: number) =>
  ((watts / 60) * (Math.exp(-t / 120) - Math.exp(-rate * t))) / (rate - 1 / 120);

describe('the temperature of the pre-charge resistor', () => {
  const { rise: facts } = factsOf(sample);
  const t95 = 0.5 * Math.log(20);
  // 360 W that fade at 4 per s; hottest at ln(4·120)/(4 − 1/120) = 1.547 s, but the rise ends before, at 1.498 s.
  const once = rise(360, 4, t95);

  it('is that of a fading pulse which ends at the threshold', () => {
    expect(facts.resistorPeakTemperature.nominal).toBeCloseTo(25 + once, 10);
  });

  it('adds up by the geometric sum from start to start', () => {
    // What is left of one pulse 60 s after its start, then the sum over five and over all.
    const left = once * Math.exp(-(60 - t95) / 120);
    const q = Math.exp(-0.5);
    const sum = (n: number) => (left * (1 - q ** n)) / (1 - q);
    // (θ₀ + a)·e^(−κt) − a·e^(−4t), a = 6/(4 − κ): hottest where both terms change alike.
    const a = 6 / (4 - 1 / 120);
    const peakFrom = (start: number) => {
      const at = Math.min(t95, Math.log((4 * a * 120) / (start + a)) / (4 - 1 / 120));
      return start * Math.exp(-at / 120) + rise(360, 4, at);
    };
    expect(facts.attemptsPeakTemperature(1, 60).nominal).toBeCloseTo(25 + once, 10);
    expect(facts.attemptsPeakTemperature(5, 60).nominal).toBeCloseTo(25 + peakFrom(sum(4)), 10);
    expect(facts.attemptsPeakTemperature(Infinity, 60).nominal).toBeCloseTo(25 + peakFrom(left / (1 - q)), 10);
  });

  it('lets a rise end before the next begins', () => {
    const back = facts.attemptsPeakTemperature(Infinity, 0.2).nominal ?? 0;
    expect(back).toBeCloseTo(facts.attemptsPeakTemperature(Infinity, t95).nominal ?? 1, 10);
    // Without end it is about the mean power, 0.9975·90 J in 1.498 s, times 2 K/W.
    expect(back / (25 + (2 * 0.9975 * 90) / t95)).toBeCloseTo(1, 1);
  });

  it('says what it would need', () => {
    const { rise: bare } = factsOf(sample, { resistance: 2 });
    expect(bare.attemptsPeakTemperature(3, 5)).toMatchObject({
      nominal: null,
      reason: 'not-stated',
      missing: ['#/circuit/pre/thermal/capacitance'],
    });
    const unplaced = createFacts(car(sample, mass), conditions).rise.attemptsPeakTemperature(3, 5);
    expect(unplaced.missing).toEqual(['#/circuit/pre/ambientMax']);
  });
});

describe('the temperature of a discharge resistor', () => {
  const facts = factsOf(sample);

  it('adds up over falls that are cut by the next, the last of them whole', () => {
    // 90 W that fade at 2/(4000·500 µF) = 1 per s.
    const one = rise(90, 1, 5);
    const q = Math.exp(-5 / 120);
    const start = one * (q + 1);
    const hottest = Math.max(
      ...Array.from({ length: 40_001 }, (_, k) => start * Math.exp(-k / 4000 / 120) + rise(90, 1, k / 4000)),
    );
    expect(repeats(facts, 3, 5)?.nominal).toBeCloseTo(25 + hottest, 7);
  });

  it('is that of one fall where there is one', () => {
    const at = Math.log(120) / (1 - 1 / 120);
    expect(repeats(facts, 1, 5)?.nominal).toBeCloseTo(25 + rise(90, 1, at), 10);
  });

  it('is not there for a resistor that is not in the fall', () => {
    expect(facts.falls[0]?.repeatsPeakTemperature('pre', 3, 5)).toMatchObject({ nominal: null, reason: 'no-path' });
  });
});

describe('the bounds of temperatures', () => {
  const spread: Values = {
    volts: { min: 400, nominal: 550, max: 600, toleranceStated: true },
    pre: within(1000, 0.2),
    link: within(500e-6, 0.2),
    discharge: within(4000, 0.2),
    meter: within(47_000, 0.02),
  };

  // A mass that cools within a rise is hottest at the smallest resistance, though that is not where it takes the most heat.
  it.each([
    ['that cools within a rise', { resistance: 2, capacitance: 0.1 }],
    ['that cools as slowly as it is heated', { resistance: 4, capacitance: 0.5 }],
    ['that keeps all its heat for a minute', mass],
  ])('hold for every car drawn from the ranges, and what was found is met: a mass %s', (_, thermal) => {
    const facts = factsOf(spread, thermal);
    const read = (from: Facts) => [
      from.rise.resistorPeakTemperature,
      from.rise.attemptsPeakTemperature(3, 5),
      from.rise.attemptsPeakTemperature(Infinity, 20),
      repeats(from, 3, 5),
    ];
    const bounds = read(facts);
    const next = random(77);
    const keys = Object.keys(spread) as (keyof Values)[];
    const draws = Array.from({ length: 72 }, (__, round) => {
      const draw = (range: Toleranced, bit: number): Toleranced => {
        if (round < 32) return exact((round >> bit) % 2 === 0 ? range.min : range.max);
        return exact(range.min + (range.max - range.min) * next());
      };
      return Object.fromEntries(keys.map((key, bit) => [key, draw(spread[key]!, bit)])) as unknown as Values;
    });
    const found = draws.map((values) => read(factsOf(values, thermal)).map((figure) => figure?.nominal ?? Number.NaN));
    bounds.forEach((figure, k) => {
      const values = found.map((row) => row[k]!);
      const { min, max, gap, bound } = figure ?? {};
      expect(bound).toBe('searched');
      // All corners are among the draws, so what was found is met to rounding, and nothing lies beyond the ends.
      expect((max ?? 0) - (gap?.max ?? Number.NaN)).toBeCloseTo(Math.max(...values), 8);
      expect((min ?? 0) + (gap?.min ?? 0)).toBeCloseTo(Math.min(...values), 8);
      expect(gap?.max).toBeGreaterThanOrEqual(0);
    });
  });

  it('hold for random cars, also where the threshold is never reached and the rise goes on for ever', () => {
    const next = random(78);
    let endless = 0;
    for (let round = 0; round < 25; round += 1) {
      const part = (nominal: number) => within(nominal, 0.02 + 0.2 * next());
      const ranges: Values = {
        volts: part(500),
        pre: part(decades(next, 2, 3)),
        link: part(decades(next, -4, -3)),
        discharge: part(4000),
        meter: part(decades(next, 3, 5)),
      };
      const thermal = { resistance: decades(next, 0, 1), capacitance: decades(next, -1, 2) };
      const read = (from: Facts) => [
        from.rise.resistorPeakTemperature,
        from.rise.attemptsPeakTemperature(3, 5),
        from.rise.attemptsPeakTemperature(Infinity, 0.2),
        repeats(from, 3, 2),
      ];
      const facts = factsOf(ranges, thermal);
      if (facts.rise.timeToThreshold.reached !== 'always') endless += 1;
      const bounds = read(facts);
      for (let draw = 0; draw < 12; draw += 1) {
        const drawn = Object.entries(ranges).map(([key, { min, max }]: [string, Toleranced]) => {
          const share = draw % 2 === 0 ? Math.round(next()) : next();
          return [key, exact(min + (max - min) * share)];
        });
        const one = read(factsOf(Object.fromEntries(drawn), thermal));
        bounds.forEach((figure, k) => {
          const found = one[k]?.nominal ?? Number.NaN;
          expect(figure?.gap?.max).not.toBeNull();
          // Rounding of some hundred degrees.
          expect(found).toBeLessThanOrEqual((figure?.max ?? Number.NaN) + 1e-8);
          if (figure?.gap?.min !== null) expect(found).toBeGreaterThanOrEqual((figure?.min ?? Number.NaN) - 1e-8);
        });
      }
    }
    expect(endless).toBeGreaterThan(3);
  });

  it('lie close to what was found where the mass is slow, as real ones are', () => {
    const facts = factsOf(spread, mass);
    const { max, gap } = facts.rise.attemptsPeakTemperature(3, 5);
    // Within a rise of 1.5 s a mass of 120 s lets go of about 1 % of it; the ranges of the parts add as much again.
    expect((gap?.max ?? Infinity) / ((max ?? 0) - 25)).toBeLessThan(0.05);
  });
});

describe('a rise that its load keeps from the threshold', () => {
  it('heats the resistor until the timeout of the comparison, by hand', () => {
    // 600 V, 1 kΩ and a 1 kΩ load: 300 V in the end. Broken off after 3 s, the resistor has taken what
    // i = 0.3 A·(1 + e^(−4t)) makes of it: 90 W·(t + ½·(1 − e^(−4t)) + ⅛·(1 − e^(−8t))), into 60 J/K that hardly cool (θ = 10⁷ s).
    const circuit = car({ ...sample, meter: exact(1000) }, { resistance: 1e7 / 60, capacitance: 60 }, 25);
    const precharge = { method: 'voltage-comparison', timeout: 3 } as const;
    const { rise: stalled } = createFacts({ ...circuit, control: { ...circuit.control, precharge } }, conditions);
    const heat = 90 * (3 + 0.5 * (1 - Math.exp(-12)) + 0.125 * (1 - Math.exp(-24)));
    expect(stalled.resistorPeakTemperature.nominal).toBeCloseTo(25 + heat / 60, 4);
    // Without a timeout nothing ends it: P·Rth.
    const { rise: endless } = createFacts(circuit, conditions);
    expect(endless.resistorPeakTemperature.nominal).toBeGreaterThan(1e6);
  });
});
