import { describe, expect, it } from 'vitest';
import {
  accumulator,
  capacitor,
  circuitOf,
  contact,
  fuse,
  load,
  NamedRun,
  resistor,
  solutionOf,
  step,
  sumOf,
} from './net.js';
import { exact } from './net.js';

const at = (solution: ReturnType<typeof solutionOf>, id: string, time = 0) =>
  sumOf(solution.current(solution.compiled.byId.get(id)!.index)).at(time);
const volts = (solution: ReturnType<typeof solutionOf>, a: string, b: string) =>
  solution.voltage(solution.compiled.nodes.get(a)!, solution.compiled.nodes.get(b)!);

describe('signs', () => {
  const circuit = (turned: boolean) =>
    circuitOf([accumulator('a', 'p', 'n', 100, 1), turned ? resistor('r', 'n', 'p', 9) : resistor('r', 'p', 'n', 9)]);

  it('current runs from the first node to the second; an accumulator that feeds has a negative one', () => {
    const solution = solutionOf(circuit(false));
    expect(at(solution, 'r')).toBeCloseTo(10, 13);
    expect(at(solution, 'a')).toBeCloseTo(-10, 13);
    expect(at(solutionOf(circuit(true)), 'r')).toBeCloseTo(-10, 13);
  });

  it('a voltage probe is v(a) − v(b)', () => {
    const solution = solutionOf(circuit(false));
    expect(sumOf(volts(solution, 'p', 'n')).at(0)).toBeCloseTo(90, 12);
    expect(sumOf(volts(solution, 'n', 'p')).at(0)).toBeCloseTo(-90, 12);
    expect(sumOf(volts(solution, 'p', 'p')).at(0)).toBe(0);
  });

  it('a charging capacitor has a positive current into its first node, a discharging one a negative', () => {
    const charging = solutionOf(
      circuitOf([accumulator('a', 'p', 'n', 100), resistor('r', 'p', 'x', 10), capacitor('c', 'x', 'n', 1e-3)]),
    );
    expect(at(charging, 'c')).toBeCloseTo(10, 13);
    expect(at(charging, 'c', 0.01)).toBeCloseTo(10 * Math.exp(-1), 13);
    const falling = solutionOf(
      circuitOf([resistor('r', 'x', 'n', 10), capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 50 })]),
    );
    expect(at(falling, 'c')).toBeCloseTo(-5, 13);
  });

  it('all that is absorbed adds up to nothing: what the source gives the others take (Tellegen)', () => {
    const parts = circuitOf([
      accumulator('a', 'p', 'n', 400, 0.3),
      fuse('f', 'p', 'q'),
      resistor('r1', 'q', 'x', 33),
      resistor('r2', 'x', 'n', 470),
      capacitor('c1', 'x', 'n', 1e-3, { esr: exact(0.05), initialVoltage: 12 }),
      resistor('r3', 'x', 'y', 5),
      capacitor('c2', 'n', 'y', 2e-4),
    ]);
    const solution = solutionOf(parts);
    for (const t of [0, 1e-3, 0.02, 3]) {
      const power = parts.elements.reduce(
        (sum, { id, nodes: [a, b] }) => sum + sumOf(volts(solution, a, b)).at(t) * at(solution, id, t),
        0,
      );
      expect(Math.abs(power)).toBeLessThan(1e-9 * 4e5);
    }
  });
});

describe('islands', () => {
  const circuit = circuitOf([
    accumulator('a', 'p', 'n', 100),
    contact('k', 'p', 'x'),
    contact('m', 'n', 'y'),
    resistor('r', 'x', 'y', 10),
    contact('lead', 'x', 'w'),
  ]);

  it('a probe across two has no value, nor one on a wire that hangs on nothing', () => {
    const solution = solutionOf(circuit);
    expect(volts(solution, 'x', 'n')).toBe('separate-islands');
    expect(volts(solution, 'w', 'n')).toBe('separate-islands');
    expect(volts(solution, 'w', 'x')).toBe('separate-islands');
    expect(sumOf(volts(solution, 'p', 'n')).at(0)).toBe(100);
    expect(sumOf(volts(solution, 'x', 'y')).at(0)).toBe(0);
  });

  it('joined at one pole only, the rest follows that pole and carries nothing', () => {
    const solution = solutionOf(circuit, ['k', 'lead']);
    expect(sumOf(volts(solution, 'y', 'n')).at(0)).toBe(100);
    expect(sumOf(volts(solution, 'w', 'n')).at(0)).toBe(100);
    expect(at(solution, 'r')).toBe(0);
    expect(at(solution, 'lead')).toBe(0);
  });

  it('a capacitor left alone keeps its voltage for ever', () => {
    const alone = solutionOf(
      circuitOf([
        accumulator('a', 'p', 'n', 100),
        contact('k', 'p', 'x'),
        capacitor('c', 'x', 'm', 1e-3, { initialVoltage: 321.5 }),
      ]),
    );
    expect(alone.capacitorVoltage(0).at(1e12)).toBe(321.5);
    expect(volts(alone, 'x', 'n')).toBe('separate-islands');
  });

  it('a current load between two islands draws nothing', () => {
    const run = new NamedRun(
      circuitOf([
        accumulator('a', 'p', 'n', 100),
        load('l', 'p', 'x', { current: exact(3) }),
        resistor('r', 'x', 'y', 1),
      ]),
      [],
    );
    expect(run.current('l', 1)).toBe(0);
    expect(run.current('r', 1)).toBe(0);
  });
});

describe('open elements', () => {
  it('carry exactly 0 A, whatever stands across them', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100, 0.1),
      resistor('r', 'p', 'x', 3),
      contact('k', 'x', 'n'),
      capacitor('c', 'x', 'n', 1e-5),
      load('l', 'x', 'n', { current: exact(1), startsAbove: 200 }),
    ]);
    const solution = solutionOf(circuit);
    for (const t of [0, 1e-6, 1]) expect([at(solution, 'k', t), at(solution, 'l', t)]).toEqual([0, 0]);
  });

  it('with a leakage conduct that and no more', () => {
    const solution = solutionOf(
      circuitOf([
        accumulator('a', 'p', 'n', 100),
        contact('k', 'p', 'x', { openResistance: exact(1e6) }),
        resistor('r', 'x', 'n', 1e6),
      ]),
    );
    expect(at(solution, 'k')).toBeCloseTo(5e-5, 18);
  });
});

describe('currents through elements without resistance', () => {
  it('follow from Kirchhoff’s law, along a chain and at a fork', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      fuse('f', 'p', 'q'),
      contact('k', 'q', 's'),
      resistor('r1', 'q', 'n', 10),
      contact('m', 't', 's'),
      resistor('r2', 't', 'n', 20),
      resistor('r3', 's', 'n', 50),
    ]);
    const solution = solutionOf(circuit, ['k', 'm']);
    expect(at(solution, 'f')).toBeCloseTo(17, 13);
    expect(at(solution, 'k')).toBeCloseTo(7, 13);
    // From t to s, against the flow.
    expect(at(solution, 'm')).toBeCloseTo(-5, 13);
    expect(at(solution, 'a')).toBeCloseTo(-17, 13);
  });

  it('include what capacitors and constant-current loads take', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100, 1),
      contact('k', 'p', 'x'),
      capacitor('c', 'x', 'n', 1e-3),
      load('l', 'x', 'n', { current: exact(2) }),
      resistor('r', 'x', 'n', 50),
    ]);
    const run = new NamedRun(circuit, [step({ at: 0 }, { close: ['k'] })]);
    for (const t of [0.001, 0.0123, 1]) {
      const sum = ['c', 'l', 'r'].reduce((total, id) => total + Number(run.current(id, t)), 0);
      expect(Number(run.current('k', t))).toBeCloseTo(sum, 10);
      expect(Number(run.current('a', t))).toBeCloseTo(-sum, 10);
    }
    expect(run.current('l', 1)).toBe(2);
  });

  it('are indeterminate in a loop of them, and only there', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      fuse('f1', 'p', 'q'),
      fuse('f2', 'p', 'q'),
      contact('k', 'q', 'x'),
      resistor('r', 'x', 'n', 10),
    ]);
    const solution = solutionOf(circuit, ['k']);
    const { byId } = solution.compiled;
    expect(solution.current(byId.get('f1')!.index)).toBe('indeterminate-loop');
    expect(solution.current(byId.get('f2')!.index)).toBe('indeterminate-loop');
    expect(at(solution, 'k')).toBeCloseTo(10, 13);
    expect(at(solution, 'a')).toBeCloseTo(-10, 13);
  });

  it('a contact that shorts a part takes its current', () => {
    const solution = solutionOf(
      circuitOf([
        accumulator('a', 'p', 'n', 100, 2),
        resistor('r', 'p', 'x', 8),
        contact('k', 'p', 'x'),
        resistor('s', 'x', 'n', 3),
      ]),
      ['k'],
    );
    expect(at(solution, 'r')).toBe(0);
    expect(at(solution, 'k')).toBeCloseTo(20, 13);
  });
});

describe('several accumulators without resistance', () => {
  it('add up in series, contacts between them', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'm', 200),
      contact('k', 'm', 'q'),
      accumulator('b', 'q', 'n', 150),
      resistor('r', 'p', 'n', 100),
    ]);
    const solution = solutionOf(circuit, ['k']);
    expect(sumOf(volts(solution, 'p', 'n')).at(0)).toBe(350);
    // It runs from the negative pole to the positive one, so from q to m through k.
    expect(at(solution, 'k')).toBeCloseTo(-3.5, 13);
    expect(at(solution, 'b')).toBeCloseTo(-3.5, 13);
    // Open: nothing flows, and p stands where n does.
    expect(sumOf(volts(solutionOf(circuit), 'p', 'q')).at(0)).toBe(-150);
  });
});

describe('equivalent series resistance', () => {
  it('jumps the terminals, not the capacitor', () => {
    const solution = solutionOf(
      circuitOf([
        accumulator('a', 'p', 'n', 100),
        resistor('r', 'p', 'x', 9),
        capacitor('c', 'x', 'n', 1e-3, { esr: exact(1), initialVoltage: 20 }),
      ]),
    );
    expect(sumOf(volts(solution, 'x', 'n')).at(0)).toBeCloseTo(28, 12);
    expect(solution.capacitorVoltage(0).at(0)).toBeCloseTo(20, 12);
    expect(at(solution, 'c')).toBeCloseTo(8, 13);
    expect(at(solution, 'c', 0.01)).toBeCloseTo(8 * Math.exp(-1), 12);
  });
});
