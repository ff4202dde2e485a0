import { describe, expect, it } from 'vitest';
import { CircuitFault } from '../../src/circuit/fault.js';
import { type SharingCapacitor, sharedCharge } from '../../src/transient/charge-sharing.js';
import { accumulator, capacitor, circuitOf, contact, fuse, NamedRun, resistor, solutionOf, step } from './net.js';
import { decades, random } from './random.js';

const between = (a: number, b: number, c: number, before: number, offset = 0): SharingCapacitor => ({
  a,
  b,
  c,
  before,
  offset,
});

describe('sharedCharge', () => {
  it('the two-capacitor paradox: equal capacitors lose half the energy', () => {
    // Textbook: V/2 on both, ¼CV² left of ½CV².
    const { after, energyLost, infinite } = sharedCharge({
      capacitors: [between(0, 1, 1e-3, 100), between(0, 1, 1e-3, 0)],
    });
    expect(after).toEqual([50, 50]);
    expect(energyLost).toBeCloseTo(2.5, 14);
    expect(infinite).toEqual([]);
  });

  it('opposed charges cancel, and all energy is lost', () => {
    const { after, energyLost } = sharedCharge({ capacitors: [between(0, 1, 1e-3, 100), between(1, 0, 1e-3, 100)] });
    expect(after.map((v) => Math.abs(v))).toEqual([0, 0]);
    expect(energyLost).toBeCloseTo(10, 14);
  });

  it('keeps the charge of every node and the voltage of every loop, and never gains energy', () => {
    const next = random(71);
    for (let round = 0; round < 40; round += 1) {
      const nodes = 2 + Math.floor(next() * 4);
      const capacitors = Array.from({ length: nodes + Math.floor(next() * 4) }, (_, k) => {
        const a = k + 1 < nodes ? k + 1 : Math.floor(next() * nodes);
        const other = k + 1 < nodes ? Math.floor(next() * (k + 1)) : Math.floor(next() * nodes);
        return between(a, other === a ? (a + 1) % nodes : other, decades(next, -7, -2), 800 * (next() - 0.5));
      });
      const { after, energyLost } = sharedCharge({ capacitors });
      const charge = (node: number, volts: (k: number) => number) =>
        capacitors.reduce(
          (sum, { a, b, c }, k) => sum + ((a === node ? 1 : 0) - (b === node ? 1 : 0)) * c * volts(k),
          0,
        );
      const size = capacitors.reduce((sum, { c }) => sum + 400 * c, 0);
      for (let node = 0; node < nodes; node += 1) {
        expect(Math.abs(charge(node, (k) => after[k]!) - charge(node, (k) => capacitors[k]!.before))).toBeLessThan(
          1e-13 * size,
        );
      }
      // Potentials exist: walk from node 0 and compare every capacitor.
      const potential = new Map([[0, 0]]);
      for (let pass = 0; pass < nodes; pass += 1) {
        capacitors.forEach(({ a, b }, k) => {
          if (potential.has(b) && !potential.has(a)) potential.set(a, potential.get(b)! + after[k]!);
          if (potential.has(a) && !potential.has(b)) potential.set(b, potential.get(a)! - after[k]!);
        });
      }
      // The matrix is as ill-conditioned as the capacitances are apart (five decades).
      capacitors.forEach(({ a, b }, k) =>
        expect(Math.abs(potential.get(a)! - potential.get(b)! - after[k]!)).toBeLessThan(1e-8),
      );
      const energy = (volts: (k: number) => number) =>
        capacitors.reduce((sum, { c }, k) => sum + 0.5 * c * volts(k) ** 2, 0);
      const lost = energy((k) => capacitors[k]!.before) - energy((k) => after[k]!);
      expect(energyLost).toBeGreaterThanOrEqual(0);
      expect(Math.abs(energyLost - lost)).toBeLessThan(1e-11 * energy((k) => capacitors[k]!.before));
    }
  });

  it('moves nothing where no loop of capacitors closes', () => {
    const capacitors = [between(0, 1, 1e-3, 100), between(1, 2, 1e-6, -7)];
    expect(sharedCharge({ capacitors })).toEqual({ after: [100, -7], energyLost: 0, infinite: [] });
  });

  it('names the capacitor that an ideal source holds elsewhere', () => {
    expect(sharedCharge({ capacitors: [between(0, 0, 1e-3, 10, 400)] }).infinite).toEqual([0]);
    expect(sharedCharge({ capacitors: [between(0, 0, 1e-3, 400, 400)] }).infinite).toEqual([]);
  });
});

describe('charge sharing in a circuit', () => {
  it('happens as the contact closes, with the energy in its event', () => {
    const circuit = circuitOf([
      capacitor('c1', 'x', 'n', 1e-3, { initialVoltage: 100 }),
      contact('k', 'x', 'y'),
      capacitor('c2', 'y', 'n', 1e-3),
    ]);
    const run = new NamedRun(circuit, [step({ at: 1 }, { close: ['k'] })]);
    expect(run.voltage('y', 'n', 0.999)).toBe(0);
    expect(run.voltage('y', 'n', 1)).toBeCloseTo(50, 12);
    expect(run.events).toMatchObject([{ time: 1, step: 0, closed: ['k'] }]);
    expect(run.events[0]!.energyLost).toBeCloseTo(2.5, 12);
  });

  it('happens at t = 0 where initial voltages contradict each other', () => {
    const circuit = circuitOf([
      capacitor('c1', 'x', 'n', 3e-3, { initialVoltage: 100 }),
      fuse('f', 'x', 'y'),
      capacitor('c2', 'n', 'y', 1e-3, { initialVoltage: 20 }),
    ]);
    const run = new NamedRun(circuit, []);
    // (3e-3·100 − 1e-3·20)/4e-3 = 70.
    expect(run.voltage('x', 'n', 0)).toBeCloseTo(70, 12);
    expect(run.voltage('n', 'y', 0)).toBeCloseTo(-70, 12);
    expect(run.events).toMatchObject([{ time: 0, step: null }]);
    expect(run.events[0]!.energyLost).toBeCloseTo(15 + 0.2 - 9.8, 12);
  });

  it('an ideal source onto an ideal capacitor is a loop that names every element and the step', () => {
    const circuit = circuitOf([
      accumulator('pack', 'p', 'n', 400),
      fuse('main-fuse', 'p', 'q'),
      contact('air', 'q', 'x'),
      capacitor('link', 'x', 'n', 1e-3),
      resistor('bleed', 'x', 'n', 1e4),
    ]);
    let fault: unknown;
    try {
      new NamedRun(circuit, [step({ at: 0 }, {}), step({ at: 1 }, { close: ['air'] })]);
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(CircuitFault);
    const { faults } = fault as CircuitFault;
    expect(faults.map(({ pointer }) => pointer).sort()).toEqual([
      '#/circuit/air',
      '#/circuit/link',
      '#/circuit/main-fuse',
      '#/circuit/pack',
    ]);
    for (const each of faults) {
      expect(each.code).toBe('ideal-loop');
      expect(each.detail).toContain('step 1');
      for (const id of ['pack', 'main-fuse', 'air', 'link']) expect(each.detail).toContain(id);
      expect(each.detail).not.toContain('bleed');
    }
  });

  it('is no fault where the capacitor already stands at the voltage of the source', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 400),
      contact('k', 'p', 'x'),
      capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 400 }),
    ]);
    expect(solutionOf(circuit, ['k']).capacitorVoltage(0).at(5)).toBe(400);
  });

  it('two ideal sources against each other are a loop; at the same voltage they are not', () => {
    const pair = (volts: number) =>
      circuitOf([accumulator('a', 'p', 'n', 400), accumulator('b', 'p', 'n', volts), resistor('r', 'p', 'n', 10)]);
    expect(() => solutionOf(pair(399))).toThrow(/loop (a, b|b, a) /);
    const even = solutionOf(pair(400));
    expect(even.current(even.compiled.byId.get('a')!.index)).toBe('indeterminate-loop');
  });

  it('a source onto two ideal capacitors in series is a loop of all three', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 400),
      contact('k', 'p', 'x'),
      capacitor('c1', 'x', 'm', 1e-4),
      capacitor('c2', 'm', 'n', 1e-4),
    ]);
    try {
      solutionOf(circuit, ['k']);
      expect.unreachable();
    } catch (error) {
      expect((error as CircuitFault).faults.map(({ pointer }) => pointer).sort()).toEqual([
        '#/circuit/a',
        '#/circuit/c1',
        '#/circuit/c2',
        '#/circuit/k',
      ]);
    }
  });
});
