import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { boxOf } from '../../src/transient/box.js';
import { compileCircuit } from '../../src/transient/compiled-circuit.js';
import { fedAtOneNode } from '../../src/transient/fed-at-one-node.js';
import { lump, mostFedIn } from '../../src/transient/lump.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { accumulator, capacitor, circuitOf, modesOf, resistor, sumOf } from './net.js';
import { decades, random } from './random.js';

/** A link with up to four more capacitors on cables of their own or of each other's, each with an ESR and a leak. */
function cluster(next: () => number): Element[] {
  const elements: Element[] = [
    accumulator('pack', 'bp', 'ln', 600, 0.1),
    resistor('pre', 'bp', 'lp', decades(next, 2, 3)),
    capacitor('c0', 'lp', 'ln', decades(next, -4, -3), { esr: resistorOf(next) }),
    resistor('bleed', 'lp', 'ln', decades(next, 4, 6)),
  ];
  const nodes = ['lp'];
  const count = 1 + Math.floor(next() * 4);
  for (let k = 1; k <= count; k += 1) {
    const node = `n${k.toString()}`;
    const from = nodes[Math.floor(next() * nodes.length)]!;
    elements.push(
      resistor(`cable${k.toString()}`, from, node, decades(next, -3, 0)),
      capacitor(`c${k.toString()}`, node, 'ln', decades(next, -5, -3), { esr: resistorOf(next) }),
      resistor(`leak${k.toString()}`, node, 'ln', decades(next, 4, 7)),
    );
    nodes.push(node);
  }
  return elements;
}

function resistorOf(next: () => number) {
  const nominal = decades(next, -3, -1);
  return { min: nominal, nominal, max: nominal, toleranceStated: true };
}

describe('capacitors taken as one', () => {
  it('stand within twice the fed current times the neglected resistance of the real ones, at every time of a rise', () => {
    let worst = 0;
    for (let seed = 1; seed <= 80; seed += 1) {
      const compiled = compileCircuit(circuitOf(cluster(random(seed)), ['lp', 'ln']));
      const box = boxOf(compiled, () => 0);
      const modes = modesOf(compiled);
      const link = { a: compiled.nodes.get('lp')!, b: compiled.nodes.get('ln')! };
      const lumped = lump(compiled, box, modes, 'rise', link);
      expect(lumped).toBeDefined();
      const without = lumped!.without(box);
      const off = 2 * lumped!.resistanceIn(box) * mostFedIn(compiled, without, modes);
      const start = { capacitorVoltages: compiled.capacitors.map(() => 0) };
      const real = sumOf(new StateSolution(compiled, box.nominal, modes, start).voltage(link.a, link.b));
      const one = new StateSolution(compiled, without.nominal, modes, start);
      expect(one.rates.filter((rate) => rate > 0)).toHaveLength(1);
      const rough = sumOf(one.voltage(link.a, link.b));
      for (let k = 0; k < 200; k += 1) {
        const time = 10 ** (-7 + k / 20);
        const share = Math.abs(real.at(time) - rough.at(time)) / off;
        worst = Math.max(worst, share);
        expect(share).toBeLessThan(1 + 1e-9);
      }
    }
    // The bound is no empty one: some circuit comes within a factor of ten of it.
    expect(worst).toBeGreaterThan(0.1);
  });

  it('does so too with a way past one of the cables, a bridge that no series and parallel joining undoes', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const next = random(seed);
      const elements = [
        ...cluster(next).map((each) => (each.id === 'pre' ? resistor('pre', 'bp', 'cp', decades(next, 2, 3)) : each)),
        resistor('plug', 'cp', 'lp', decades(next, -3, -1)),
        resistor('tap', 'cp', 'n1', decades(next, -3, 2)),
        resistor('meter', 'cp', 'ln', 47_000),
      ];
      const compiled = compileCircuit(circuitOf(elements, ['lp', 'ln']));
      const box = boxOf(compiled, () => 0);
      const modes = modesOf(compiled);
      const link = { a: compiled.nodes.get('lp')!, b: compiled.nodes.get('ln')! };
      expect(fedAtOneNode(compiled, box.nominal, modes)).toBe(true);
      const lumped = lump(compiled, box, modes, 'rise', link);
      expect(lumped).toBeDefined();
      const without = lumped!.without(box);
      const off = 2 * lumped!.resistanceIn(box) * mostFedIn(compiled, without, modes);
      const start = { capacitorVoltages: compiled.capacitors.map(() => 0) };
      const [real, rough] = [box.nominal, without.nominal].map((values) => {
        const solution = new StateSolution(compiled, values, modes, start);
        return sumOf(solution.voltage(link.a, link.b));
      });
      for (let k = 0; k < 100; k += 1) {
        const time = 10 ** (-7 + k / 10);
        expect(Math.abs(real!.at(time) - rough!.at(time)) / off).toBeLessThan(1 + 1e-9);
      }
    }
  });

  it('is not claimed of capacitors without a common node', () => {
    const compiled = compileCircuit(
      circuitOf(
        [
          accumulator('pack', 'bp', 'ln', 600, 0.1),
          resistor('pre', 'bp', 'lp', 1000),
          capacitor('c1', 'lp', 'ch', 1e-4),
          capacitor('c2', 'ch', 'ln', 1e-4),
          capacitor('c3', 'lp', 'ln', 1e-4),
        ],
        ['lp', 'ln'],
      ),
    );
    const link = { a: compiled.nodes.get('lp')!, b: compiled.nodes.get('ln')! };
    expect(
      lump(
        compiled,
        boxOf(compiled, () => 0),
        modesOf(compiled),
        'rise',
        link,
      ),
    ).toBeUndefined();
  });
});
