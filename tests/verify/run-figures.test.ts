import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { transients } from '../../src/verify/transients.js';
import { accumulator, capacitor, circuitOf, contact, resistor, step } from '../transient/net.js';

/** 600 V, 500 µF, 1 kΩ with 2 K/W and 60 J/K at 25 °C; 10 kΩ beside the link. τ = RC = 0.4545 s, settling at 10/11 of 600 V. */
function figures(duration: number, ...more: Element[]) {
  const thermal = { resistance: 2, capacitance: 60 };
  const circuit = circuitOf(
    [
      { ...accumulator('pack', 'p', 'n', 600), zone: 'container' },
      { ...contact('relay', 'p', 'q', { role: 'precharge-relay' }), zone: 'container' },
      resistor('pre', 'q', 'x', 1000, { role: 'precharge', thermal, ambientMax: 25 }),
      capacitor('link', 'x', 'n', 500e-6),
      resistor('bleed', 'x', 'n', 10_000),
      ...more,
    ],
    ['x', 'n'],
  );
  const sequence = [step({ at: 0 }, { close: ['relay'] })];
  return transients({ circuit, sequence, probes: [], instants: { duration, samples: 2 } }).figures;
}

// Source: 1 − e^(−t/τ) and its square, textbook integrals; first-order heating likewise.
describe('figures and probes of a run', () => {
  const tau = 500e-6 * (1e7 / 11_000);
  /** i = a + b·e^(−t/τ) through the pre-charge resistor. */
  const [a, b] = [600 / 11_000, 0.6 - 600 / 11_000];
  const squared = (t: number) =>
    a * a * t - 2 * a * b * tau * Math.expm1(-t / tau) - ((b * b * tau) / 2) * Math.expm1((-2 * t) / tau);

  it('give each resistor its RMS current over the record', () => {
    for (const duration of [0.1, 2, 50]) {
      const found = figures(duration);
      expect(found['resistorRmsCurrent']?.nominal).toBeCloseTo(Math.sqrt(squared(duration) / duration), 12);
      // v = 6000/11·(1 − e^(−t/τ)) across the bleed resistor.
      const e1 = -Math.expm1(-duration / tau);
      const e2 = -Math.expm1((-2 * duration) / tau) / 2;
      const mean = (6000 / 11 / 10_000) ** 2 * (1 - (2 * e1 - e2) * (tau / duration));
      expect(found['resistorRmsCurrent:bleed']?.nominal).toBeCloseTo(Math.sqrt(mean), 12);
    }
  });

  it('give each resistor its highest power and heat, without end where it keeps carrying', () => {
    const found = figures(2);
    expect(found['resistorPeakPower']).toMatchObject({ unit: 'W', element: 'pre' });
    expect(found['resistorPeakPower']?.nominal).toBeCloseTo(360, 9);
    expect(found['resistorPeakPower:bleed']?.nominal).toBeCloseTo((6000 / 11) ** 2 / 10_000, 9);
    expect(found['resistorEnergy']).toMatchObject({ nominal: null, reason: 'without-end' });
  });

  it('give the highest temperature of the whole run where the thermal mass is stated', () => {
    const found = figures(2);
    // It takes heat until what flows in is what flows out; brute force over the closed form of the three convolutions.
    const kappa = 1 / 120;
    const term = (rate: number, t: number) => (Math.exp(-rate * t) - Math.exp(-kappa * t)) / (kappa - rate);
    const rise = (t: number) =>
      (1000 / 60) * (a * a * term(0, t) + 2 * a * b * term(1 / tau, t) + b * b * term(2 / tau, t));
    const hottest = Math.max(...Array.from({ length: 20_001 }, (_, k) => rise(k / 10)));
    // 2.975 W for ever are 5.95 K; the start alone is 1.5 K.
    expect(found['resistorPeakTemperature']?.nominal).toBeCloseTo(25 + hottest, 6);
    expect(found['resistorPeakTemperature']?.nominal).toBeCloseTo(25 + a * a * 1000 * 2, 6);
    expect(found['resistorPeakTemperature:bleed']).toEqual({
      unit: '°C',
      nominal: null,
      element: 'bleed',
      reason: 'not-stated',
    });
  });

  it('agree with a temperature probe at every instant', () => {
    const thermal = { resistance: 2, capacitance: 1 };
    const circuit = circuitOf([
      accumulator('pack', 'p', 'n', 100),
      contact('k', 'p', 'q'),
      resistor('r', 'q', 'n', 50, { thermal, ambientMax: 20 }),
      resistor('cold', 'q', 'n', 50),
    ]);
    const probes = ['r', 'cold'].map((element) => ({ id: element, quantity: 'temperature' as const, element }));
    const answer = transients({
      circuit,
      sequence: [step({ at: 1 }, { close: ['k'] }), step({ at: 4 }, { open: ['k'] })],
      probes,
      instants: { times: [0, 1, 2, 4, 10] },
    });
    // 200 W through 2 K/W with 2 s.
    const warm = (t: number) => -400 * Math.expm1(-t / 2);
    const expected = [0, 0, warm(1), warm(3), warm(3) * Math.exp(-3)].map((rise) => 20 + rise);
    answer.signals[0]?.values.forEach((value, k) => {
      expect(value).toBeCloseTo(expected[k]!, 10);
    });
    expect(answer.signals[1]).toMatchObject({
      values: [null, null, null, null, null],
      reasons: Array(5).fill('not-stated'),
    });
    expect(answer.figures['resistorPeakTemperature:r']?.nominal).toBeCloseTo(20 + warm(3), 10);
  });

  it('name every pre-charge resistor where there are several', () => {
    const found = figures(
      2,
      { ...contact('relay-2', 'p', 's', { role: 'precharge-relay' }), zone: 'container' },
      resistor('pre-2', 's', 'x', 2000, { role: 'precharge' }),
    );
    expect(found['peakCurrent']).toBeUndefined();
    expect(found['peakCurrent:pre']?.nominal).toBeCloseTo(0.6, 12);
    expect(found['peakCurrent:pre-2']?.nominal).toBe(0);
  });
});
