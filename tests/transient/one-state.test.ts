import { describe, expect, it } from 'vitest';
import { boundsOf, type Direction } from '../../src/transient/bounds.js';
import { type Box, boxOf } from '../../src/transient/box.js';
import { type CompiledCircuit, compileCircuit, type Values } from '../../src/transient/compiled-circuit.js';
import { firstAtOrAbove } from '../../src/transient/crossings.js';
import { OneState } from '../../src/transient/one-state.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { compareDirections, ROUNDING, somewhere, type Tally } from './difference-quotients.js';
import { accumulator, capacitor, circuitOf, load, modesOf, resistor, sumOf, within } from './net.js';
import { random } from './random.js';
import { seriesParallelCircuit } from './series-parallel-circuit.js';

const RATIO = 0.6;

interface Figure {
  readonly name: string;
  readonly value: (values: Values) => number;
  readonly direction: (index: number) => Direction;
}

class Rise {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  readonly state: OneState | undefined;
  private readonly pair: { readonly a: number; readonly b: number };

  constructor(elements: Parameters<typeof circuitOf>[0], pair: readonly [string, string]) {
    this.compiled = compileCircuit(circuitOf(elements));
    this.box = boxOf(this.compiled, () => 0);
    this.pair = { a: this.compiled.nodes.get(pair[0])!, b: this.compiled.nodes.get(pair[1])! };
    this.state = OneState.of({
      compiled: this.compiled,
      box: this.box,
      modes: modesOf(this.compiled),
      course: 'rise',
      pairs: [this.pair],
    });
  }

  private solve(values: Values): StateSolution {
    return new StateSolution(this.compiled, values, modesOf(this.compiled), { capacitorVoltages: [0] });
  }

  private voltage(values: Values) {
    return sumOf(this.solve(values).voltage(this.pair.a, this.pair.b));
  }

  figures(): Figure[] {
    const { state, compiled, pair } = this;
    if (state === undefined) return [];
    const sense = Math.sign(this.voltage(this.box.nominal).limit()) || 1;
    const source = compiled.byId.get('a')!.primary;
    const tau = 1 / Math.max(...this.solve(this.box.nominal).rates);
    const rising = state.risingVoltage(pair);
    const parts = compiled.elements.filter(({ kind }) => kind === 'resistor').slice(0, 3);
    const toReach: Figure = {
      name: 'time to reach',
      value: (values) =>
        firstAtOrAbove(this.voltage(values).times(sense), RATIO * values[source]!, Infinity, values[source]!) ??
        Infinity,
      // Relative to the source's own voltage, which therefore drops out.
      direction: (index) => (index === source ? 0 : state.timeToReach(pair, RATIO, this.box)(index)),
    };
    return [
      {
        name: 'steady voltage',
        value: (values) => sense * this.voltage(values).limit(),
        direction: state.steadyVoltage(pair),
      },
      ...[0, 0.3, 1, 4].map(
        (t): Figure => ({
          name: `voltage at ${t} τ`,
          value: (values) => sense * this.voltage(values).at(t * tau),
          direction: rising,
        }),
      ),
      // With two sources there is no one voltage that a ratio is to.
      ...(compiled.byId.has('b') ? [] : [toReach]),
      {
        name: 'time constant',
        value: (values) => 1 / Math.max(...this.solve(values).rates),
        direction: state.timeConstant(),
      },
      ...parts.flatMap((part): Figure[] => {
        const current = (values: Values) => Math.abs(sumOf(this.solve(values).current(part.index)).at(0));
        return [
          { name: `first current ${part.id}`, value: current, direction: state.firstCurrent(part) },
          {
            name: `first power ${part.id}`,
            value: (values) => current(values) ** 2 * values[part.primary]!,
            direction: state.firstPower(part, this.box),
          },
        ];
      }),
    ];
  }
}

/** What a difference counts against where the figure itself is 0: a voltage's rounding is that of the source. */
const least = (name: string): number => (name.includes('voltage') ? 1 : 1e-9);

describe('directions proved for circuits with one capacitor', () => {
  it('agree with difference quotients all over the box, in random series-parallel circuits', () => {
    const next = random(111);
    const tally: Tally = { wrong: [], proved: 0, open: 0 };
    for (let round = 0; round < 70; round += 1) {
      const { elements, pair } = seriesParallelCircuit(next, 2 + (round % 6));
      const rise = new Rise(elements, pair);
      const { parameters } = rise.compiled;
      const nameOf = (index: number) => `${parameters[index]!.element}.${parameters[index]!.field}`;
      for (const { name, ...figure } of rise.figures()) {
        const directed = { ...figure, name: `${round} ${name}`, least: least(name) };
        compareDirections(rise.box, directed, nameOf, next, tally);
      }
    }
    const { wrong, proved, open } = tally;
    expect(wrong).toEqual([]);
    // Most of what is asked is proved: the test is about something.
    expect(proved).toBeGreaterThan(4 * open);
    expect(proved).toBeGreaterThan(1000);
  });

  it('hold as bounds: nothing that chance or ascent finds in the box lies beyond', () => {
    const next = random(112);
    const wrong: string[] = [];
    let checked = 0;
    for (let round = 0; round < 30; round += 1) {
      const { elements, pair } = seriesParallelCircuit(next, 2 + (round % 5));
      const rise = new Rise(elements, pair);
      for (const { name, value, direction } of rise.figures()) {
        const bounds = boundsOf(rise.box, value, { direction });
        if (!bounds.proved) continue;
        checked += 1;
        const slack = ROUNDING * Math.max(least(name), Math.abs(bounds.max.value), Math.abs(bounds.min.value));
        const beyond = (found: number) => found > bounds.max.value + slack || found < bounds.min.value - slack;
        for (let k = 0; k < 20; k += 1)
          if (beyond(value(somewhere(rise.box, next)))) wrong.push(`${round} ${name} by chance`);
        for (const wanted of [1, -1]) {
          // Ascent one parameter after the other, from a random place: to either end or the middle, whichever is best.
          const values = somewhere(rise.box, next);
          let best = value(values);
          for (const { index, low, high } of [...rise.box.uncertain, ...rise.box.uncertain]) {
            const here = values[index]!;
            let kept = here;
            for (const trial of [low, high, (low + high) / 2]) {
              values[index] = trial;
              const found = value(values);
              if (wanted * found > wanted * best) [best, kept] = [found, trial];
            }
            values[index] = kept;
          }
          if (beyond(best)) wrong.push(`${round} ${name} by ascent`);
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(checked).toBeGreaterThan(40);
  });

  it('of the textbook rise with a meter: the usual ones', () => {
    const rise = new Rise(
      [
        accumulator('a', 'p', 'n', within(600, 0.1), within(0.5, 0.1)),
        resistor('pre', 'p', 'x', within(1000, 0.05)),
        resistor('meter', 'x', 'n', within(47_000, 0.02)),
        capacitor('link', 'x', 'n', within(5e-4, 0.2)),
      ],
      ['x', 'n'],
    );
    const state = rise.state!;
    const link = { a: rise.compiled.nodes.get('x')!, b: rise.compiled.nodes.get('n')! };
    const signs = (direction: (index: number) => Direction) =>
      Object.fromEntries(
        rise.compiled.parameters
          .map(({ element, field }, index) => [`${element}.${field}`, (direction(index) ?? Number.NaN) + 0])
          .filter(([key]) => key !== 'link.esr'),
      );
    expect(signs(state.steadyVoltage(link))).toEqual({
      'a.voltage': 1,
      'a.resistance': -1,
      'pre.resistance': -1,
      'meter.resistance': 1,
      'link.capacitance': 0,
    });
    expect(signs(state.risingVoltage(link))).toEqual({
      'a.voltage': 1,
      'a.resistance': -1,
      'pre.resistance': -1,
      'meter.resistance': 1,
      'link.capacitance': -1,
    });
    expect(signs(state.timeConstant())).toEqual({
      'a.voltage': 0,
      'a.resistance': 1,
      'pre.resistance': 1,
      'meter.resistance': 1,
      'link.capacitance': 1,
    });
    expect(signs(state.firstCurrent(rise.compiled.byId.get('pre')!))).toEqual({
      'a.voltage': 1,
      'a.resistance': -1,
      'pre.resistance': -1,
      'meter.resistance': 0,
      'link.capacitance': 0,
    });
  });

  it('tells how long a capacitor lasts that nothing charges', () => {
    const { state, compiled } = new Rise(
      [
        accumulator('a', 'p', 'n', within(400, 0.1), within(0.5, 0.2)),
        resistor('r', 'p', 'n', within(1000, 0.05)),
        capacitor('aside', 'x', 'y', within(5e-4, 0.2)),
        resistor('leak', 'x', 'y', within(1000, 0.05)),
      ],
      ['x', 'y'],
    );
    const lasts = state!.timeConstant();
    const told = ['aside', 'leak', 'r'].map((id) => lasts(compiled.byId.get(id)!.primary));
    // R·C of the two that are joined, and of nothing else.
    expect(told).toEqual([1, 1, 0]);
  });

  it('takes two sources for one only where they aid each other in series', () => {
    const pair = (second: readonly [string, string], ...more: Parameters<typeof circuitOf>[0]) =>
      new Rise(
        [
          accumulator('a', 'p', 'm', within(300, 0.1), 0.5),
          accumulator('b', ...second, within(300, 0.1), 0.5),
          resistor('r', 'p', 'x', within(1000, 0.1)),
          capacitor('c', 'x', 'n', 5e-4),
          ...more,
        ],
        ['x', 'n'],
      ).state;
    expect(pair(['m', 'n'])).toBeDefined();
    // Against each other; side by side; one with a part across it; one that is on no loop.
    expect(pair(['n', 'm'])).toBeUndefined();
    expect(pair(['p', 'm'], resistor('s', 'm', 'n', 1))).toBeUndefined();
    expect(pair(['m', 'n'], resistor('s', 'm', 'n', 1e4))).toBeUndefined();
    expect(pair(['q', 'x'], resistor('s', 'm', 'n', 1))).toBeDefined();
  });

  it('claims nothing of two capacitors apart, of a bridge over the pair, or of a load that has to wake', () => {
    const plain = [
      accumulator('a', 'p', 'n', within(600, 0.1), 0.5),
      resistor('r', 'p', 'x', 1000),
      capacitor('c', 'x', 'n', 5e-4),
    ];
    expect(new Rise(plain, ['x', 'n']).state).toBeDefined();
    expect(
      new Rise([...plain, resistor('s', 'x', 'y', 10), capacitor('d', 'y', 'n', 1e-5)], ['x', 'n']).state,
    ).toBeUndefined();
    const bridge = [
      accumulator('a', 'p', 'n', within(600, 0.1), 0.5),
      resistor('r1', 'p', 'x', 10),
      resistor('r2', 'p', 'y', 20),
      resistor('r3', 'x', 'n', 30),
      resistor('r4', 'y', 'n', 10),
      resistor('r5', 'x', 'y', 5),
      capacitor('c', 'x', 'n', 5e-4),
    ];
    expect(new Rise(bridge, ['x', 'y']).state).toBeUndefined();
    expect(
      new Rise([...plain, load('l', 'x', 'n', { resistance: within(1e4, 0.1), startsAbove: 300 })], ['x', 'n']).state,
    ).toBeUndefined();
  });
});
