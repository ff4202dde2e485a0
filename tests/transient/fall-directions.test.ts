import { describe, expect, it } from 'vitest';
import { boxOf } from '../../src/transient/box.js';
import { compileCircuit, type Values } from '../../src/transient/compiled-circuit.js';
import { fallDirections } from '../../src/transient/fall-directions.js';
import { lastAbove } from '../../src/transient/piecewise.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { accumulator, capacitor, circuitOf, contact, exact, modesOf, resistor, within } from './net.js';
import { decades, pick, random } from './random.js';

function fall(elements: Parameters<typeof circuitOf>[0]) {
  const compiled = compileCircuit(circuitOf(elements));
  const box = boxOf(compiled, () => 0);
  const modes = modesOf(compiled);
  const direction = fallDirections(compiled, box, modes);
  const time = (position: number) => (values: Values) => {
    const solution = new StateSolution(compiled, values, modes, {
      capacitorVoltages: compiled.capacitors.map(() => 400),
    });
    return lastAbove([{ start: 0, end: Infinity, signal: solution.capacitorVoltage(position) }], 60, 400);
  };
  return { compiled, box, direction, time };
}

describe('fallDirections', () => {
  it('agree with difference quotients all over the box where they claim anything', () => {
    const next = random(131);
    const wrong: string[] = [];
    let proved = 0;
    for (let round = 0; round < 40; round += 1) {
      // Capacitors to n, each with leaks of its own in any graph (a bridge too), some joined by a resistance in every third circuit.
      const elements: Parameters<typeof circuitOf>[0][number][] = [];
      const count = 1 + (round % 3);
      for (let k = 0; k < count; k += 1) {
        const nodes = [`x${k}`, 'n', `i${k}`, `j${k}`];
        elements.push(capacitor(`c${k}`, `x${k}`, 'n', within(decades(next, -5, -3), 0.2)));
        for (let r = 0; r < 6; r += 1) {
          const [a, b] = [pick(next, nodes), pick(next, nodes)];
          if (a !== b) elements.push(resistor(`r${k}${r}`, a, b, within(decades(next, 1, 4), pick(next, [0.05, 0.5]))));
        }
        elements.push(resistor(`s${k}`, `x${k}`, 'n', within(5000, 0.1)));
      }
      if (round % 3 === 2 && next() < 0.5) elements.push(resistor('joined', 'x0', 'x1', within(100, 0.3)));
      const { compiled, box, direction, time } = fall(elements);
      compiled.capacitors.forEach((_, position) => {
        const figure = time(position);
        for (const { index, low, high } of box.uncertain) {
          const sign = direction(index);
          if (sign === undefined) continue;
          proved += 1;
          const values = box.nominal.slice();
          for (const other of box.uncertain) values[other.index] = other.low + (other.high - other.low) * next();
          values[index] = low;
          const before = figure(values);
          values[index] = high;
          const change = (figure(values) - before) / before;
          // 0 claims no effect on anything; 1 claims no effect the other way.
          if (sign === 0 ? Math.abs(change) > 1e-9 : change * sign < -1e-9)
            wrong.push(`${round} ${compiled.parameters[index]!.element} ${sign} ${change}`);
        }
      });
    }
    expect(wrong).toEqual([]);
    expect(proved).toBeGreaterThan(300);
  });

  it('claims nothing where two capacitors exchange charge through a resistance', () => {
    const { compiled, direction } = fall([
      capacitor('c1', 'x', 'n', within(1e-3, 0.2)),
      capacitor('c2', 'y', 'n', within(1e-4, 0.2)),
      resistor('r', 'x', 'y', within(10, 0.1)),
      resistor('s', 'x', 'n', within(1000, 0.1)),
    ]);
    for (const index of compiled.parameters.keys()) expect(direction(index)).toBeUndefined();
  });

  it('claims nothing where a cable that has no resistance at nominal may part two capacitors', () => {
    const { compiled, box, direction, time } = fall([
      capacitor('c1', 'x', 'n', exact(1e-3)),
      capacitor('c2', 'y', 'n', exact(1e-3)),
      resistor('cable', 'x', 'y', { min: 0, nominal: 0, max: 50_000, toleranceStated: true }),
      resistor('leak', 'x', 'n', exact(1000)),
    ]);
    const cable = compiled.byId.get('cable')!.primary;
    const parted = box.nominal.slice();
    parted[cable] = 50_000;
    // The leak's own capacitor then falls sooner, the other one later.
    expect(time(0)(parted)).toBeLessThan(time(0)(box.nominal));
    expect(time(1)(parted)).toBeGreaterThan(time(1)(box.nominal));
    expect(direction(cable)).toBeUndefined();
  });

  it('claims nothing where an accumulator still feeds the capacitor through contacts that leak', () => {
    const leak = (id: string, a: string, b: string) =>
      contact(id, a, b, { openResistance: within(20_000, 0.5), resistance: exact(0) });
    const { compiled, direction } = fall([
      accumulator('pack', 'bp', 'bn', 400),
      leak('pos', 'bp', 'x'),
      leak('neg', 'bn', 'n'),
      capacitor('c1', 'x', 'n', within(1e-3, 0.2)),
      resistor('discharge', 'x', 'n', within(1000, 0.1)),
    ]);
    // More leakage feeds more: the time falls with its resistance, whatever the law of monotonicity says of a fall without a source.
    for (const index of compiled.parameters.keys()) expect(direction(index)).toBeUndefined();
  });

  it('still claims what it can where one leaking contact closes no loop through the accumulator', () => {
    const { compiled, direction } = fall([
      accumulator('pack', 'bp', 'bn', 400),
      resistor('sense', 'bp', 'bn', 1e6),
      contact('pos', 'bp', 'x', { openResistance: within(20_000, 0.5) }),
      capacitor('c1', 'x', 'n', within(1e-3, 0.2)),
      resistor('discharge', 'x', 'n', within(1000, 0.1)),
    ]);
    expect(direction(compiled.byId.get('discharge')!.primary)).toBe(1);
    expect(direction(compiled.byId.get('pos')!.secondary)).toBe(0);
  });
});
