import { describe, expect, it } from 'vitest';
import { big, relativeError } from './big.js';
import { eigenvaluesBig } from './big-matrix.js';
import { scaledConductance, stateEquation } from './mna.js';
import { accumulator, capacitor, circuitOf, resistor, solutionOf, sumOf } from './net.js';
import { random } from './random.js';
import { randomCircuit } from './random-circuit.js';

const RATE = 1e-12;

describe('modes of capacitors without a common node', () => {
  it('have rates good to 1e-12 over twelve decades, against eigenvalues in 64 digits', () => {
    const next = random(61);
    let worst = 0;
    let widest = 0;
    for (let round = 0; round < 24; round += 1) {
      const circuit = circuitOf(
        randomCircuit(
          next,
          2 + (round % 4),
          { ohms: [-3, 7], farads: [-7, -2] },
          { source: round % 2 === 0, general: true },
        ),
      );
      const rates = [...solutionOf(circuit).rates].sort((a, b) => b - a);
      const exact = eigenvaluesBig(scaledConductance(stateEquation(circuit, [])));
      rates.forEach((rate, k) => {
        worst = Math.max(worst, relativeError(rate, exact[k]!));
      });
      widest = Math.max(widest, rates[0]! / rates.at(-1)!);
    }
    expect(widest).toBeGreaterThan(1e10);
    expect(worst).toBeLessThan(RATE);
  });

  it('two capacitors in series share the voltage as their charges ask for, whatever they held before', () => {
    // Textbook: equal charge q = C₁C₂/(C₁+C₂)·(V − v₁ − v₂) passes through both.
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 600),
      resistor('r', 'p', 'x', 100),
      capacitor('c1', 'x', 'm', 3e-4, { initialVoltage: 20 }),
      capacitor('c2', 'm', 'n', 1e-4, { initialVoltage: -5 }),
    ]);
    const solution = solutionOf(circuit);
    const charge = ((3e-4 * 1e-4) / 4e-4) * (600 - 15);
    expect(solution.capacitorVoltage(0).limit()).toBeCloseTo(20 + charge / 3e-4, 10);
    expect(solution.capacitorVoltage(1).limit()).toBeCloseTo(-5 + charge / 1e-4, 10);
    expect([...solution.rates].map((rate) => rate * 100 * 7.5e-5).sort((a, b) => b - a)[0]).toBeCloseTo(1, 13);
    expect([...solution.rates].filter((rate) => rate === 0)).toHaveLength(1);
  });

  it('balancing resistors take a series bank to the resistive division', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 600),
      resistor('r', 'p', 'x', 100),
      capacitor('c1', 'x', 'm', 3e-4),
      capacitor('c2', 'm', 'n', 1e-4),
      resistor('b1', 'x', 'm', 1e5),
      resistor('b2', 'm', 'n', 2e5),
    ]);
    const solution = solutionOf(circuit);
    const current = 600 / (100 + 3e5);
    expect(solution.capacitorVoltage(0).limit()).toBeCloseTo(current * 1e5, 9);
    expect(solution.capacitorVoltage(1).limit()).toBeCloseTo(current * 2e5, 9);
  });

  it('capacitors to chassis at both poles behave as two in series across the link', () => {
    // Chassis hangs on the two alone: C/2 in parallel with the link.
    const y = 2e-7;
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 600),
      resistor('r', 'p', 'x', 1000),
      capacitor('c', 'x', 'n', 5e-4),
      capacitor('y1', 'x', 'chassis', y),
      capacitor('y2', 'n', 'chassis', y),
    ]);
    const solution = solutionOf(circuit);
    const link = sumOf(solution.voltage(solution.compiled.nodes.get('x')!, solution.compiled.nodes.get('n')!));
    const total = 5e-4 + y / 2;
    for (const t of [0.01, 0.5, 2]) expect(link.at(t)).toBeCloseTo(-600 * Math.expm1(-t / (1000 * total)), 9);
    expect(solution.capacitorVoltage(1).at(2)).toBeCloseTo(link.at(2) / 2, 9);
    expect(solution.capacitorVoltage(2).at(2)).toBeCloseTo(-link.at(2) / 2, 9);
  });

  it('groups of capacitors joined by resistances only: an isolated filter follows the link', () => {
    // c2 floats between two resistors: one loop of R₁ + R₂ and C₁C₂/(C₁ + C₂).
    const circuit = circuitOf([
      capacitor('c1', 'x', 'n', 4e-4, { initialVoltage: 100 }),
      resistor('r1', 'x', 'y', 30),
      capacitor('c2', 'y', 'z', 1e-4),
      resistor('r2', 'z', 'n', 20),
    ]);
    const solution = solutionOf(circuit);
    const series = 8e-5;
    expect(relativeError(Math.max(...solution.rates), big(1).div(big(50).times(big(series))))).toBeLessThan(1e-14);
    const moved = series * 100;
    for (const t of [0, 1e-3, 0.1]) {
      const share = -Math.expm1(-t / (50 * series));
      expect(solution.capacitorVoltage(0).at(t)).toBeCloseTo(100 - (moved / 4e-4) * share, 10);
      expect(solution.capacitorVoltage(1).at(t)).toBeCloseTo((moved / 1e-4) * share, 10);
    }
    const r2 = solution.compiled.byId.get('r2')!;
    expect(sumOf(solution.voltage(r2.a, r2.b)).at(1e-3)).toBeCloseTo(
      20 * sumOf(solution.current(r2.index)).at(1e-3),
      10,
    );
  });

  it('says how much accuracy it expects', () => {
    expect(solutionOf(circuitOf([capacitor('c', 'x', 'n', 1e-4), resistor('r', 'x', 'n', 1)])).estimatedError).toBe(0);
    const series = solutionOf(
      circuitOf([
        capacitor('c', 'x', 'm', 1e-4),
        capacitor('d', 'm', 'k', 1e-4),
        capacitor('e', 'k', 'n', 1e-4),
        resistor('r', 'x', 'n', 1),
      ]),
    );
    expect(series.estimatedError).toBeGreaterThan(0);
    expect(series.estimatedError).toBeLessThan(1e-20);
  });
});
