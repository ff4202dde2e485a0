import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { circuitOf, contact, NamedRun, resistor, step } from '../transient/net.js';
import { random } from '../transient/random.js';
import { randomCircuit } from '../transient/random-circuit.js';

/** Other names put the elimination in another order: rounding only. */
const RENAMED = 1e-11;
const TIMES = [0, 1e-4, 0.01, 0.3, 2, 50];

function circuitAt(round: number): Element[] {
  const elements = randomCircuit(
    random(300 + round),
    2 + (round % 5),
    { ohms: [0, 5], farads: [-6, -3] },
    { source: true, general: round % 2 === 1 },
  );
  return [...elements, contact('k', 'n01', 'extra'), resistor('r-extra', 'extra', 'n00', 700)];
}

const steps = [step({ at: 0.1 }, { close: ['k'] }), step({ at: 1 }, { open: ['k'] })];

function voltages(elements: readonly Element[], timeScale = 1): number[] {
  const run = new NamedRun(
    circuitOf(elements),
    steps.map((each) => ({ ...each, at: each.at! * timeScale })),
  );
  const names = [...new Set(elements.map(({ id }) => id))].sort();
  return names.flatMap((id) => {
    const [a, b] = elements.find((element) => element.id === id)!.nodes;
    return TIMES.map((time) => Number(run.voltage(a, b, time * timeScale)));
  });
}

const apart = (one: readonly number[], other: readonly number[]) =>
  Math.max(
    ...one.map((value, k) => (Number.isNaN(value) && Number.isNaN(other[k]!) ? 0 : Math.abs(value - other[k]!))),
  ) / 600;

function scaled(elements: readonly Element[], ohms: number, farads: number): Element[] {
  const times = (
    { min, nominal, max, toleranceStated }: { min: number; nominal: number; max: number; toleranceStated: boolean },
    factor: number,
  ) => ({
    min: min * factor,
    nominal: nominal * factor,
    max: max * factor,
    toleranceStated,
  });
  return elements.map((element): Element => {
    if (element.kind === 'capacitor') return { ...element, capacitance: times(element.capacitance, farads) };
    if (element.kind === 'resistor') return { ...element, resistance: times(element.resistance, ohms) };
    if (element.kind === 'accumulator' && element.resistance)
      return { ...element, resistance: times(element.resistance, ohms) };
    return element;
  });
}

describe('what must not matter', () => {
  it('the order of the elements: the same to the last bit', () => {
    for (let round = 0; round < 10; round += 1) {
      const elements = circuitAt(round);
      const next = random(round);
      const shuffled = elements
        .map((element) => [next(), element] as const)
        .sort(([x], [y]) => x - y)
        .map(([, element]) => element);
      expect(voltages(shuffled)).toEqual(voltages(elements));
    }
  });

  it('the names of the nodes', () => {
    let worst = 0;
    for (let round = 0; round < 10; round += 1) {
      const elements = circuitAt(round);
      const next = random(50 + round);
      const other = new Map(
        circuitOf(elements).nodes.map((node) => [node, `${Math.floor(next() * 1e9).toString(36)}-${node}`]),
      );
      const renamed = elements.map(
        (element): Element => ({ ...element, nodes: [other.get(element.nodes[0])!, other.get(element.nodes[1])!] }),
      );
      worst = Math.max(worst, apart(voltages(renamed), voltages(elements)));
    }
    expect(worst).toBeLessThan(RENAMED);
  });

  it('the names of the elements', () => {
    let worst = 0;
    for (let round = 0; round < 10; round += 1) {
      const elements = circuitAt(round);
      const next = random(70 + round);
      // Same sorted place for the list of voltages: a prefix that turns the order round inside each kind.
      const renamed = elements.map(
        (element): Element => (element.id === 'k' ? element : { ...element, id: `${element.id}-${next()}` }),
      );
      const turned = [...renamed].reverse();
      worst = Math.max(worst, apart(voltages(turned), voltages(elements)));
    }
    expect(worst).toBeLessThan(RENAMED);
  });

  it('the direction in which a resistor is drawn', () => {
    for (let round = 0; round < 6; round += 1) {
      const elements = circuitAt(round);
      const turned = elements.map(
        (element): Element =>
          element.kind === 'resistor' ? { ...element, nodes: [element.nodes[1], element.nodes[0]] } : element,
      );
      const ends = (all: readonly Element[]) =>
        voltages(all.filter(({ kind }) => kind !== 'resistor').concat(all.filter(({ kind }) => kind === 'resistor')));
      const plain = ends(elements);
      const other = ends(turned).map((value, k) =>
        Math.abs(value + plain[k]!) < Math.abs(value - plain[k]!) ? -value : value,
      );
      expect(apart(other, plain)).toBeLessThan(RENAMED);
    }
  });

  it('the unit of resistance: R·1024 and C/1024 change no voltage, to the last bit but for roots', () => {
    // A power of two is exact; 1024 has an exact root too, so nothing at all may change.
    for (let round = 0; round < 10; round += 1) {
      const elements = circuitAt(round).filter(({ id }) => id !== 'r-extra' && id !== 'k');
      const all = [...elements, contact('k', 'n01', 'extra'), resistor('r-extra', 'extra', 'n00', 700)];
      expect(apart(voltages(scaled(all, 1024, 1 / 1024)), voltages(all))).toBeLessThan(1e-14);
      expect(apart(voltages(scaled(all, 1000, 1e-3)), voltages(all))).toBeLessThan(RENAMED);
    }
  });

  it('the unit of time: C·k stretches every curve by k', () => {
    for (let round = 0; round < 10; round += 1) {
      const elements = circuitAt(round);
      expect(apart(voltages(scaled(elements, 1, 4), 4), voltages(elements))).toBeLessThan(1e-14);
      expect(apart(voltages(scaled(elements, 1, 7), 7), voltages(elements))).toBeLessThan(RENAMED);
    }
  });

  it('the unit of voltage: all sources and start voltages doubled double everything', () => {
    const doubled = (elements: readonly Element[]) =>
      elements.map((element): Element => {
        if (element.kind === 'capacitor') return { ...element, initialVoltage: 2 * element.initialVoltage };
        if (element.kind === 'accumulator')
          return { ...element, voltage: { ...element.voltage, nominal: 2 * element.voltage.nominal } };
        return element;
      });
    for (let round = 0; round < 6; round += 1) {
      const elements = circuitAt(round);
      expect(voltages(doubled(elements))).toEqual(voltages(elements).map((value) => 2 * value));
    }
  });
});
