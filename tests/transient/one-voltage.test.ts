import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { compileCircuit, nominalValues } from '../../src/transient/compiled-circuit.js';
import { oneVoltage } from '../../src/transient/one-voltage.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { accumulator, capacitor, circuitOf, modesOf, resistor, sumOf } from './net.js';
import { decades, random } from './random.js';

/** Whether packs count by their sum alone, those named in the chain, for the voltage between two nodes. */
function summed(elements: readonly Element[], chain: readonly string[], pair: readonly [string, string] = ['x', 'n']) {
  const compiled = compileCircuit(circuitOf(elements));
  const [a, b] = [compiled.nodes.get(pair[0])!, compiled.nodes.get(pair[1])!];
  const links = chain.map((id) => ({ index: compiled.byId.get(id)!.primary, sign: 1 }) as const);
  return oneVoltage(compiled, modesOf(compiled), links, { a, b });
}

const feed = [resistor('r', 'p', 'x', 1000), capacitor('c', 'x', 'n', 5e-4)];
const first = accumulator('a', 'p', 'm', 300);
const second = accumulator('b', 'm', 'n', 200);

describe('accumulators that count by their sum', () => {
  it('are those in series that aid each other, wherever in the loop they stand', () => {
    expect(summed([first, second, ...feed], ['a', 'b'])).toBe(true);
    expect(summed([first, accumulator('b', 'y', 'n', 200), resistor('s', 'm', 'y', 5), ...feed], ['a', 'b'])).toBe(
      true,
    );
    expect(summed([accumulator('a', 'p', 'n', 300), ...feed], ['a'])).toBe(true);
  });

  it('are not those against each other, side by side, with a part across one, or of which one is left out of the sum', () => {
    expect(summed([first, accumulator('b', 'n', 'm', 200), ...feed], ['a', 'b'])).toBe(false);
    expect(summed([accumulator('a', 'p', 'n', 300), accumulator('b', 'p', 'n', 300, 1), ...feed], ['a'])).toBe(false);
    expect(summed([first, second, resistor('s', 'm', 'n', 1e4), ...feed], ['a', 'b'])).toBe(false);
    expect(summed([first, second, ...feed], ['a'])).toBe(false);
  });

  it('are not told of a voltage between them', () => {
    expect(summed([first, second, ...feed], ['a', 'b'], ['m', 'n'])).toBe(false);
  });

  it('may have others beside them that drive nothing, but not in the sum', () => {
    const idle = accumulator('b', 'q', 'x', 200);
    const one = [accumulator('a', 'p', 'n', 300), idle, ...feed];
    expect(summed(one, ['a'])).toBe(true);
    expect(summed(one, ['a', 'b'])).toBe(false);
    expect(summed(one, ['a'], ['q', 'n'])).toBe(false);
  });

  it('may pass voltage from one to the other: no current and no voltage of the pair changes (random ladders)', () => {
    const next = random(211);
    for (let round = 0; round < 30; round += 1) {
      const split = (share: number) => {
        const own = random(500 + round);
        const ohms = () => decades(own, 0, 4);
        return [
          accumulator('a', 'p', 'm', 500 * share, ohms()),
          resistor('between', 'm', 'k', ohms()),
          accumulator('b', 'k', 'n', 500 * (1 - share), ohms()),
          resistor('meter', 'p', 'n', ohms()),
          resistor('pre', 'p', 'x', ohms()),
          resistor('load', 'x', 'n', ohms()),
          capacitor('c', 'x', 'y', decades(own, -5, -3)),
          resistor('tail', 'y', 'n', ohms()),
          resistor('bridge', 'y', 'p', ohms()),
        ];
      };
      expect(summed(split(0.5), ['a', 'b'])).toBe(true);
      const read = (share: number) => {
        const compiled = compileCircuit(circuitOf(split(share)));
        const solution = new StateSolution(compiled, nominalValues(compiled), modesOf(compiled), {
          capacitorVoltages: [0],
        });
        const link = sumOf(solution.voltage(compiled.nodes.get('x')!, compiled.nodes.get('n')!));
        const currents = compiled.elements.map(({ index }) => sumOf(solution.current(index)));
        return [0, 1e-3, 0.1, 10].flatMap((time) => [link.at(time), ...currents.map((each) => 100 * each.at(time))]);
      };
      const [one, other] = [read(next()), read(next())];
      // Rounding of volts, and of currents times 100 Ω.
      one.forEach((value, k) => expect(value).toBeCloseTo(other[k]!, 8));
    }
  });
});
