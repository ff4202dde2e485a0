import { describe, expect, it } from 'vitest';
import { createFacts } from '../../../src/facts/create-facts.js';
import { exact, soundCircuit } from '../../rules/sound-car.js';
import { student2020 } from '../../rules/sound-facts.js';

const far = (ohms: number, farads: number) =>
  createFacts(
    soundCircuit({
      acc: { voltage: exact(400) },
      'c-link': { capacitance: exact(500e-6), esr: undefined },
      'r-dis': { resistance: exact(4000) },
      'c-far': {
        kind: 'capacitor',
        nodes: ['far', 'tn'],
        capacitance: exact(farads),
        ratedVoltage: 500,
        initialVoltage: 0,
      },
      'r-far': { kind: 'resistor', nodes: ['lp', 'far'], role: 'other', resistance: exact(ohms) },
    }),
    student2020.conditions,
  ).measuringPointStates!;

/** The same two capacitors by small implicit steps (backward Euler, textbook); meters of 47 kΩ and 10 MΩ behind 20 kΩ as loads. */
function stepped(ohms: number, farads: number): number {
  const loads = 1 / 4000 + 1 / 10_020_000 + 1 / 47_000;
  const dt = 1e-3;
  let [near, away] = [400, 400];
  let worst = 0;
  for (let time = 0; ; time += dt) {
    worst = Math.max(worst, Math.abs((near * 1e7) / 10_020_000 / away - 1));
    // [C₁/dt + G + g, −g; −g, C₂/dt + g]·v = [C₁/dt·v₁, C₂/dt·v₂]
    const [a, b, d] = [500e-6 / dt + loads + 1 / ohms, -1 / ohms, farads / dt + 1 / ohms];
    const [p, q] = [(500e-6 / dt) * near, (farads / dt) * away];
    const determinant = a * d - b * b;
    [near, away] = [(p * d - b * q) / determinant, (a * q - b * p) / determinant];
    if (away <= 60 || time > 1000) return worst;
  }
}

describe('what the measuring points read of a capacitor behind a resistor', () => {
  it.each([
    [100_000, 100e-6],
    [10_000, 100e-6],
    [1000, 1000e-6],
  ])('%d Ω and %d F: is worst where an independent integration says', (ohms, farads) => {
    const state = far(ohms, farads).find(({ state: id, capacitor }) => id === 'shutdown' && capacitor === 'c-far')!;
    expect(state.error).toBeCloseTo(stepped(ohms, farads), 3);
    // Once the quick mode is gone the two fall together, and any later instant is as bad: no time is compared.
    expect(state.time).toBeGreaterThan(0);
    expect(state.capacitorVoltage).toBeGreaterThanOrEqual(60 - 1e-9);
  });

  it('misses at most the leads’ share of the capacitor at the points themselves', () => {
    // 10 MΩ behind 10 kΩ in each lead: 20/10 020 = 0.1996 %.
    for (const { capacitor, error } of far(100_000, 100e-6)) {
      if (capacitor === 'c-link') expect(error).toBeCloseTo(20 / 10_020, 9);
    }
  });

  it('does not mislead where they read more than a small capacitor that empties first: the link is still there', () => {
    // 1 µF on the link by 100 kΩ, emptied by a meter of 1 MΩ in its own time: at 60 V of its own the link stands higher.
    const states = createFacts(
      soundCircuit({
        acc: { voltage: exact(400) },
        'c-small': { kind: 'capacitor', nodes: ['small', 'tn'], capacitance: exact(1e-6), initialVoltage: 0 },
        'm-small': { kind: 'meter', nodes: ['small', 'tn'], role: 'other', resistance: exact(1e6) },
        'r-small': { kind: 'resistor', nodes: ['lp', 'small'], role: 'other', resistance: exact(100_000) },
      }),
      student2020.conditions,
    ).measuringPointStates!;
    const low = states.filter(({ capacitor, reading }) => capacitor === 'c-small' && reading !== null);
    expect(low.length).toBeGreaterThan(0);
    for (const { error } of low) expect(error).toBeLessThan(0.05);
  });

  it('tells of a capacitor to the chassis from one of the points to that, where the chassis is stated', () => {
    const car = soundCircuit({
      acc: { voltage: exact(400) },
      'y-pos': { kind: 'capacitor', nodes: ['lp', 'ch'], capacitance: exact(100e-9), initialVoltage: 0 },
      'y-neg': { kind: 'capacitor', nodes: ['tn', 'ch'], capacitance: exact(100e-9), initialVoltage: 0 },
      monitor: { kind: 'meter', nodes: ['tn', 'ch'], role: 'insulation-monitor', resistance: exact(1e6) },
    });
    const errorOf = (circuit: typeof car): number =>
      Math.max(
        0,
        ...createFacts(circuit, student2020.conditions)
          .measuringPointStates!.filter(({ capacitor }) => capacitor === 'y-pos')
          .map(({ error }) => error),
      );
    // All of the link stands on it at first, by the monitor; while the link falls the chassis goes below the negative pole.
    expect(errorOf(car)).toBeGreaterThan(0.05);
    // Behind 10 kΩ.
    expect(errorOf({ ...car, chassis: 'ch' })).toBeCloseTo(10 / 10_010, 3);
  });
});
