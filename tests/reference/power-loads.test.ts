import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { circuitOf, exact, load, NamedRun } from '../transient/net.js';
import { stateEquation } from '../transient/mna.js';
import { decades, pick, random } from '../transient/random.js';
import { randomCircuit } from '../transient/random-circuit.js';
import { integrate } from './integrate.js';

/**
 * V, relative to the source: each power is followed to 1e-9, and a collapse makes that ten times as much of a voltage. The
 * integrator's own error at the kinks of a load's law (1 V, 0 V), where its order drops, is of that size too.
 */
const FOLLOWED = 2e-8;

interface PowerLoad {
  readonly node: string;
  readonly power: number;
}

/** A, by a load's law: constant power from 1 V up, a resistance of 1 V²/P from 0 to 1 V, nothing below. */
function drawn(power: number, volts: number): number {
  if (volts >= 1) return power / volts;
  return volts > 0 ? power * volts : 0;
}

/** Voltages of the capacitors, all of which stand from a node to the common one. */
function integrated(elements: readonly Element[], loads: readonly PowerLoad[], until: number): Map<string, number> {
  const { states, farads, conductance, offset } = stateEquation(circuitOf(elements), []);
  const capacities = farads.map((each) => each.toNumber());
  const matrix = conductance.map((row, i) => row.map((g) => g.toNumber() / capacities[i]!));
  const drive = offset.map((amperes, k) => amperes.toNumber() / capacities[k]!);
  const at = loads.map(({ node }) => states.indexOf(`c${node}`));
  const slope = (_: number, v: readonly number[]) => {
    const change = matrix.map((row, i) => row.reduce((sum, a, k) => sum - a * v[k]!, drive[i]!));
    loads.forEach(({ power }, k) => {
      const state = at[k]!;
      change[state] = change[state]! - drawn(power, v[state]!) / capacities[state]!;
    });
    return change;
  };
  const start = states.map((id) => {
    const source = elements.find((element) => element.id === id);
    return source?.kind === 'capacitor' ? source.initialVoltage : 0;
  });
  const end = integrate(slope, start, 0, until, 1e-12);
  return new Map(states.map((id, k) => [id, end[k]!]));
}

// Source: E. Hairer, S. P. Nørsett, G. Wanner, "Solving Ordinary Differential Equations I", the code ODEX in its port to JavaScript.
describe('loads of constant power in random networks, against an integrator', () => {
  it.each(Array.from({ length: 24 }, (_, seed) => seed))('network %i', (seed) => {
    const next = random(4000 + seed);
    const count = 1 + Math.floor(next() * 5);
    // Rates within three decades: an explicit method gets no further.
    const elements = randomCircuit(next, count, { ohms: [0.5, 2], farads: [-4, -3] }, { source: true });
    const loads = Array.from({ length: 1 + Math.floor(next() * 3) }, () => ({
      node: `n${String(1 + Math.floor(next() * count)).padStart(2, '0')}`,
      power: decades(next, 0, 3.5),
    }));
    const circuit = circuitOf([
      ...elements,
      ...loads.map(({ node, power }, k) => load(`l${String(k)}`, node, 'n00', { power: exact(power) })),
    ]);
    const run = new NamedRun(circuit, []);
    const until = pick(next, [0.003, 0.03, 0.2]);
    for (const [id, volts] of integrated(elements, loads, until)) {
      const node = id.slice(1);
      expect(Math.abs(Number(run.voltage(node, 'n00', until)) - volts) / 600).toBeLessThan(FOLLOWED);
    }
  });
});
