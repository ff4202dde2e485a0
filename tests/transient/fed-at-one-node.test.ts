import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { compileCircuit, nominalValues } from '../../src/transient/compiled-circuit.js';
import { fedAtOneNode } from '../../src/transient/fed-at-one-node.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { accumulator, capacitor, circuitOf, modesOf, resistor } from './net.js';
import { decades, random } from './random.js';

/** A pack on one or two nodes of a random mesh of five, three of which hold a capacitor to the common node. */
function mesh(next: () => number, feeds: readonly string[]): Element[] {
  const nodes = ['n0', 'n1', 'n2', 'n3', 'n4'];
  const pairs = nodes.flatMap((a, i) => nodes.slice(i + 1).map((b) => [a, b] as const));
  return [
    accumulator('pack', 'p', 'm', 400, 1),
    ...feeds.map((node, k) => resistor(`feed${k.toString()}`, 'p', node, decades(next, 1, 3))),
    resistor('return', 'm', 'g', decades(next, -1, 3)),
    resistor('sense', 'p', 'm', 1e6),
    ...pairs.flatMap(([a, b]) => (next() < 0.6 ? [resistor(`${a}-${b}`, a, b, decades(next, -2, 3))] : [])),
    ...nodes.slice(0, 3).map((node) => capacitor(`c-${node}`, node, 'g', decades(next, -5, -3))),
    ...nodes.slice(3).map((node) => resistor(`leak-${node}`, node, 'g', decades(next, 3, 6))),
  ];
}

const fed = (elements: readonly Element[]) => {
  const compiled = compileCircuit(circuitOf(elements));
  return fedAtOneNode(compiled, nominalValues(compiled), modesOf(compiled));
};

describe('capacitors that are fed at one node', () => {
  it('never fall in a rise, whatever meshes lie between them', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const elements = mesh(random(seed), seed % 2 === 0 ? ['n3'] : ['n0', 'n4']);
      expect(fed(elements)).toBe(true);
      const compiled = compileCircuit(circuitOf(elements));
      const solution = new StateSolution(compiled, nominalValues(compiled), modesOf(compiled), {
        capacitorVoltages: [0, 0, 0],
      });
      for (let position = 0; position < 3; position += 1) {
        const voltage = solution.capacitorVoltage(position);
        let before = 0;
        for (let k = 0; k < 120; k += 1) {
          const volts = voltage.at(10 ** (-7 + k / 12));
          // Rounding of a few hundred volts.
          expect(volts).toBeGreaterThanOrEqual(before - 1e-9);
          before = volts;
        }
      }
    }
  });

  it.each([1, 0])('are told from those that a source of %d Ω pulls both ways, where one does fall below 0', (ohms) => {
    const elements = [
      accumulator('pack', 'p', 'm', 400, ohms),
      resistor('feed', 'p', 'a', 100),
      resistor('return', 'm', 'g', 50),
      resistor('astray', 'm', 'b', 100),
      resistor('cable', 'a', 'b', 1000),
      capacitor('ca', 'a', 'g', 1e-3),
      capacitor('cb', 'b', 'g', 1e-4),
    ];
    expect(fed(elements)).toBe(false);
    expect(fed(elements.filter(({ id }) => id !== 'astray'))).toBe(true);
    const compiled = compileCircuit(circuitOf(elements));
    const solution = new StateSolution(compiled, nominalValues(compiled), modesOf(compiled), {
      capacitorVoltages: [0, 0],
    });
    expect(solution.capacitorVoltage(1).at(1e-3)).toBeLessThan(-1);
  });

  it('are not claimed where two packs feed two of them, or where they have none in common', () => {
    const other = accumulator('other', 'q', 'g', 300, 1);
    expect(fed([...mesh(random(3), ['n0']), other, resistor('feed-other', 'q', 'n1', 100)])).toBe(false);
    expect(
      fed([
        accumulator('pack', 'p', 'g', 400, 1),
        resistor('feed', 'p', 'a', 100),
        capacitor('upper', 'a', 'b', 1e-3),
        capacitor('lower', 'b', 'g', 1e-3),
        capacitor('whole', 'a', 'g', 1e-3),
      ]),
    ).toBe(false);
  });
});
