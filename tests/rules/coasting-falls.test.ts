import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFacts } from '../../src/facts/create-facts.js';
import { exact, soundCircuit } from './sound-car.js';
import { student2020 } from './sound-facts.js';

/** Ω of the machine in the integration; it takes a few parts in ten thousand of what the machine holds up. */
const WINDING = 0.5;
const STEP = 2e-4;

interface Car {
  readonly ohms: number;
  readonly farads: number;
  readonly volts: number;
  readonly emf: number;
  readonly decay: number;
}

/** C·v' = −v/R + max(0, (E·e^(−t/d) − v)/r) by the implicit Euler method (textbook), from max(V, E) down to 60 V. */
function integrated({ ohms, farads, volts, emf, decay }: Car): number {
  let v = Math.max(volts, emf);
  let last = 0;
  for (let k = 1; k * STEP < 60; k += 1) {
    const held = emf * Math.exp((-k * STEP) / decay);
    const free = v / (1 + STEP / (ohms * farads));
    const fed = (v + (held * STEP) / (WINDING * farads)) / (1 + STEP / (ohms * farads) + STEP / (WINDING * farads));
    v = held > free ? fed : free;
    if (v > 60) last = k * STEP;
    else if (held < 60) break;
  }
  return last;
}

function computed({ ohms, farads, volts, emf, decay }: Car): number | null {
  const released = { releaseTime: 0 };
  const circuit = soundCircuit({
    acc: { voltage: exact(volts) },
    meter: null,
    'c-link': { capacitance: exact(farads), esr: undefined },
    'r-dis': { resistance: exact(ohms) },
    'k-dis': released,
    'air-pos': released,
    'air-neg': released,
    'k-pre': released,
    motor: { kind: 'machine', nodes: ['lp', 'tn'], backEmf: exact(emf), decay, resistance: exact(WINDING) },
  });
  const fall = createFacts(circuit, student2020.conditions).coasting.find(({ state }) => state === 'shutdown');
  return fall?.timeToLimit.nominal ?? null;
}

const car = fc.record({
  ohms: fc.double({ min: 500, max: 10_000, noNaN: true }),
  farads: fc.double({ min: 200e-6, max: 1e-3, noNaN: true }),
  volts: fc.double({ min: 120, max: 600, noNaN: true }),
  emf: fc.double({ min: 10, max: 700, noNaN: true }),
  decay: fc.double({ min: 0.1, max: 8, noNaN: true }),
});

describe('the fall with a machine turning', () => {
  it('takes as long as a step-by-step integration of the same circuit', () => {
    fc.assert(
      fc.property(car, (parts) => {
        const seconds = computed(parts) ?? Number.NaN;
        const reference = integrated(parts);
        // The winding's drop, the step, and the bound's being one from above.
        expect(seconds).toBeGreaterThan(reference - 2 * STEP);
        expect(seconds - reference).toBeLessThan(2e-3 * parts.decay + 1e-3 * seconds + 4 * STEP);
      }),
      { seed: 60, numRuns: 40 },
    );
  });

  it('is never shorter than at standstill', () => {
    const parts = { ohms: 4000, farads: 500e-6, volts: 400, decay: 1 };
    const standstill = 2 * Math.log(400 / 60);
    expect(computed({ ...parts, emf: 10 })).toBeCloseTo(standstill, 9);
    expect(computed({ ...parts, emf: 400 })).toBeCloseTo(standstill, 9);
  });
});
