import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { big, relativeError } from './big.js';
import { eigenvaluesBig } from './big-matrix.js';
import { scaledConductance, stateEquation } from './mna.js';
import { accumulator, capacitor, circuitOf, resistor, solutionOf, sumOf } from './net.js';
import { random } from './random.js';
import { randomCircuit } from './random-circuit.js';

/** The design's promise for every rate, whatever the spread. */
const RATE = 1e-12;

function worstRate(elements: readonly Element[]): { error: number; spread: number } {
  const circuit = circuitOf(elements);
  const rates = [...solutionOf(circuit).rates].sort((a, b) => b - a);
  const exact = eigenvaluesBig(scaledConductance(stateEquation(circuit, [])));
  expect(rates).toHaveLength(exact.length);
  const error = Math.max(
    ...rates.map((rate, k) =>
      exact[k]!.abs().lt(exact[0]!.times('1e-40')) ? Math.abs(rate) : relativeError(rate, exact[k]!),
    ),
  );
  return { error, spread: rates[0]! / rates.at(-1)! };
}

describe('modes of capacitors on one common node', () => {
  it('have rates good to 1e-12 over twelve decades and more, against eigenvalues in 64 digits', () => {
    const next = random(41);
    let worst = 0;
    let widest = 0;
    for (let round = 0; round < 40; round += 1) {
      const elements = randomCircuit(
        next,
        2 + (round % 5),
        { ohms: [-4, 8], farads: [-8, -1] },
        { source: round % 2 === 0 },
      );
      const { error, spread } = worstRate(elements);
      worst = Math.max(worst, error);
      widest = Math.max(widest, spread);
    }
    expect(widest).toBeGreaterThan(1e11);
    expect(worst).toBeLessThan(RATE);
  });

  it('two capacitors on a 1 mΩ cable with a 10 MΩ leak: both rates of the quadratic', () => {
    // s² − (g/C₁ + g/C₂ + l/C₁)·s + g·l/(C₁·C₂) = 0 in 64 digits. Design page: a summed diagonal loses 5.9e-6 of the slow one.
    for (const [c1, c2] of [
      [500e-6, 500e-6],
      [500e-6, 20e-6],
      [1e-6, 2e-3],
    ] as const) {
      const circuit = circuitOf([
        capacitor('c1', 'x', 'n', c1),
        capacitor('c2', 'y', 'n', c2),
        resistor('cable', 'x', 'y', 1e-3),
        resistor('meter', 'x', 'n', 1e7),
      ]);
      const g = big(1).div(big(1e-3));
      const leak = big(1).div(big(1e7));
      const [one, two] = [big(c1), big(c2)];
      const half = g.div(one).plus(g.div(two)).plus(leak.div(one)).div(2);
      const product = g.times(leak).div(one).div(two);
      const fast = half.plus(half.times(half).minus(product).sqrt());
      const rates = [...solutionOf(circuit).rates].sort((a, b) => b - a);
      expect(relativeError(rates[0]!, fast)).toBeLessThan(1e-14);
      expect(relativeError(rates[1]!, product.div(fast))).toBeLessThan(1e-14);
    }
  });

  it('a rate is exactly 0 where nothing discharges, and its charge stays to the bit', () => {
    const circuit = circuitOf([
      capacitor('c1', 'x', 'n', 3e-4, { initialVoltage: 300 }),
      capacitor('c2', 'y', 'n', 7e-5, { initialVoltage: 10 }),
      resistor('r', 'x', 'y', 22),
    ]);
    const solution = solutionOf(circuit);
    expect([...solution.rates].filter((rate) => rate === 0)).toHaveLength(1);
    const end = (3e-4 * 300 + 7e-5 * 10) / 3.7e-4;
    for (const k of [0, 1]) {
      expect(solution.capacitorVoltage(k).at(1e9) / end).toBeCloseTo(1, 14);
      expect(solution.capacitorVoltage(k).at(1e12)).toBe(solution.capacitorVoltage(k).at(1e9));
    }
  });

  it('a nearly perfect capacitor discharges at its own rate: 1 TΩ across 1 mF beside a 1 kΩ loop', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 400),
      resistor('r', 'p', 'x', 1000),
      capacitor('c1', 'x', 'n', 5e-4),
      capacitor('c2', 'y', 'm', 1e-3, { initialVoltage: 100 }),
      resistor('leak', 'y', 'm', 1e12),
    ]);
    const solution = solutionOf(circuit);
    expect(
      sumOf(solution.voltage(solution.compiled.nodes.get('y')!, solution.compiled.nodes.get('m')!)).at(1e6),
    ).toBeCloseTo(100 * Math.exp(-1e-3), 11);
  });

  it('start where they were put: every capacitor at its own voltage', () => {
    const next = random(42);
    for (let round = 0; round < 20; round += 1) {
      const circuit = circuitOf(randomCircuit(next, 6, { ohms: [-3, 7], farads: [-7, -2] }, { source: true }));
      const solution = solutionOf(circuit);
      solution.compiled.capacitors.forEach((index, k) => {
        const { source } = solution.compiled.elements[index]!;
        if (source.kind !== 'capacitor') throw new Error('not a capacitor');
        // A share of another mode's size: √ of the capacitances' ratio times rounding.
        expect(Math.abs(solution.capacitorVoltage(k).at(0) - source.initialVoltage)).toBeLessThan(1e-10);
      });
    }
  });
});
