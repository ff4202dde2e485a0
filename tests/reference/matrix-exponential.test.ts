import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { type Big, big } from '../transient/big.js';
import { exponentialBig } from '../transient/big-matrix.js';
import { stateEquation } from '../transient/mna.js';
import { accumulator, capacitor, circuitOf, exact, meter, resistor, solutionOf, sumOf } from '../transient/net.js';
import { decades, pick, random } from '../transient/random.js';
import { randomCircuit } from '../transient/random-circuit.js';

/** The promise: 1e-9 of a signal's largest magnitude. What is asked here is a thousand times more. */
const VOLTAGE = 1e-12;
/**
 * A current through a cable is a difference of two nearly equal voltages over its resistance, so it is good to the promise relative
 * to what the voltages could drive through it.
 */
const CURRENT = 1e-12;

interface Exact {
  readonly states: readonly Big[];
  readonly voltage: (a: string, b: string) => Big;
  readonly current: (id: string) => Big;
}

/** v(t) by e^(A·t) of the augmented matrix [A b; 0 0], in 64 digits. */
function exactly(elements: readonly Element[], time: number): Exact {
  const circuit = circuitOf(elements);
  const equation = stateEquation(circuit, []);
  const { states, farads, conductance, offset } = equation;
  const n = states.length;
  const t = big(time);
  const matrix = [
    ...conductance.map((row, i) => [
      ...row.map((g) => g.neg().times(t).div(farads[i]!)),
      offset[i]!.times(t).div(farads[i]!),
    ]),
    Array.from({ length: n + 1 }, () => big(0)),
  ];
  const start = states.map((id) => {
    const source = circuit.elements.find((element) => element.id === id);
    return big(source?.kind === 'capacitor' ? source.initialVoltage : 0);
  });
  const flow = exponentialBig(matrix);
  const now = flow.slice(0, n).map((row) => row.reduce((sum, x, k) => sum.plus(x.times(start[k] ?? big(1))), big(0)));
  return {
    states: now,
    voltage: (a, b) => equation.voltage(now, a, b),
    current: (id) => equation.current(now, id),
  };
}

function worst(elements: readonly Element[], time: number): { volts: number; amps: number } {
  const circuit = circuitOf(elements);
  const solution = solutionOf(circuit);
  const reference = exactly(elements, time);
  let volts = 0;
  let amps = 0;
  for (const element of circuit.elements) {
    const [a, b] = element.nodes;
    const { a: i, b: j, index } = solution.compiled.byId.get(element.id)!;
    volts = Math.max(
      volts,
      Math.abs(
        big(sumOf(solution.voltage(i, j)).at(time))
          .minus(reference.voltage(a, b))
          .toNumber(),
      ),
    );
    const current = Math.abs(
      big(sumOf(solution.current(index)).at(time))
        .minus(reference.current(element.id))
        .toNumber(),
    );
    if (element.kind === 'resistor') amps = Math.max(amps, current * element.resistance.nominal);
  }
  return { volts: volts / 600, amps: amps / 600 };
}

// Source: C. Moler and C. Van Loan's method 3 (see big-matrix.ts) on the state equation of Kirchhoff's tableau (see mna.ts), 64 digits.
describe('every voltage and current against the matrix exponential in 64 digits', () => {
  it('of random circuits on one common node, rates over nine decades and more', () => {
    const next = random(201);
    let volts = 0;
    let amps = 0;
    for (let round = 0; round < 16; round += 1) {
      const elements = randomCircuit(next, 1 + (round % 4), { ohms: [-3, 6], farads: [-7, -3] }, { source: true });
      const found = worst(elements, decades(next, -7, 3));
      volts = Math.max(volts, found.volts);
      amps = Math.max(amps, found.amps);
    }
    expect(volts).toBeLessThan(VOLTAGE);
    expect(amps).toBeLessThan(CURRENT);
  });

  it('of random circuits without a common node: to chassis, in series banks', () => {
    const next = random(202);
    let volts = 0;
    let amps = 0;
    for (let round = 0; round < 16; round += 1) {
      const elements = randomCircuit(
        next,
        2 + (round % 3),
        { ohms: [-3, 6], farads: [-7, -3] },
        { source: true, general: true },
      );
      const found = worst(elements, decades(next, -7, 3));
      volts = Math.max(volts, found.volts);
      amps = Math.max(amps, found.amps);
    }
    expect(volts).toBeLessThan(VOLTAGE);
    expect(amps).toBeLessThan(CURRENT);
  });

  it('of a link with chassis capacitors, a series bank with balancing, and ESR', () => {
    const elements = [
      accumulator('a', 'p', 'n', 600, 0.2),
      resistor('pre', 'p', 'x', 1000),
      capacitor('link', 'x', 'n', 5e-4, { esr: exact(0.02) }),
      capacitor('y1', 'x', 'chassis', 1e-7),
      capacitor('y2', 'n', 'chassis', 2.2e-7, { esr: exact(1) }),
      meter('insulation', 'n', 'chassis', 1e6),
      resistor('cable', 'x', 'u', 2e-3),
      capacitor('bank1', 'u', 'mid', 1e-3, { initialVoltage: 10 }),
      capacitor('bank2', 'mid', 'n', 1.2e-3),
      resistor('balance1', 'u', 'mid', 47_000),
      resistor('balance2', 'mid', 'n', 47_000),
    ];
    for (const time of [0, 1e-6, 1e-3, 0.5, 3, 200]) {
      const { volts, amps } = worst(elements, time);
      expect(volts).toBeLessThan(VOLTAGE);
      expect(amps).toBeLessThan(CURRENT);
    }
  });

  it('of the rise of three inverters on cables, each with an ESR', () => {
    const inverter = (k: number, cable: number, farads: number, esr: number, bleed: number): Element[] => [
      resistor(`cable${k}`, 'lp', `p${k}`, cable),
      capacitor(`link${k}`, `p${k}`, 'n', farads, { esr: exact(esr) }),
      resistor(`bleed${k}`, `p${k}`, 'n', bleed),
    ];
    const elements = [
      accumulator('a', 'p', 'n', 588, 0.12),
      resistor('fuse', 'p', 'f', 3e-3),
      resistor('pre', 'f', 'lp', 1200),
      meter('meter', 'lp', 'n', 47_000),
      ...inverter(1, 4e-3, 450e-6, 0.012, 68_000),
      ...inverter(2, 6e-3, 390e-6, 0.018, 82_000),
      ...inverter(3, 5e-3, 510e-6, 0.009, 100_000),
    ];
    for (const time of [0, 1e-6, 1e-5, 1e-4, 1e-2, 1, 5, 20]) {
      const { volts, amps } = worst(elements, time);
      expect(volts).toBeLessThan(VOLTAGE);
      expect(amps).toBeLessThan(CURRENT);
    }
  });

  it('of a fall: what each capacitor still holds keeps its own digits', () => {
    const next = random(203);
    for (let round = 0; round < 8; round += 1) {
      const elements = randomCircuit(
        next,
        3,
        { ohms: [0, 4], farads: [-5, -3] },
        { source: false, general: pick(next, [true, false]) },
      );
      expect(worst(elements, decades(next, -3, 1)).volts).toBeLessThan(VOLTAGE);
    }
  });
});
