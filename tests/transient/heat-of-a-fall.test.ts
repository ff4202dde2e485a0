import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { boxOf } from '../../src/transient/box.js';
import { type CompiledElement, compileCircuit, type Values } from '../../src/transient/compiled-circuit.js';
import { OneState } from '../../src/transient/one-state.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { compareDirections, somewhere, type Tally } from './difference-quotients.js';
import { capacitor, circuitOf, exact, modesOf, resistor, sumOf, within } from './net.js';
import { random } from './random.js';
import { seriesParallelCircuit } from './series-parallel-circuit.js';

/** A fall from 1 V, and the heat of each resistance: ½·τ·i₀²·R of a current i₀·e^(−t/τ). */
class Fall {
  readonly compiled;
  readonly box;
  readonly state: OneState | undefined;
  private readonly modes;

  constructor(elements: readonly Element[]) {
    this.compiled = compileCircuit(circuitOf([...elements]));
    this.box = boxOf(this.compiled, () => 0);
    this.modes = modesOf(this.compiled);
    this.state = OneState.of({
      compiled: this.compiled,
      box: this.box,
      modes: this.modes,
      course: 'fall',
      pairs: [],
    });
  }

  heat(part: CompiledElement, values: Values): number {
    const solution = new StateSolution(this.compiled, values, this.modes, { capacitorVoltages: [1] });
    const rate = Math.max(0, ...solution.rates);
    return rate === 0 ? 0 : (sumOf(solution.current(part.index)).at(0) ** 2 * values[part.primary]!) / (2 * rate);
  }

  get resistors(): CompiledElement[] {
    return this.compiled.elements.filter(({ kind }) => kind === 'resistor');
  }
}

/** The same graphs as of a rise, their sources taken for resistances. */
function randomFall(next: () => number, growth: number): Fall {
  const { elements } = seriesParallelCircuit(next, growth);
  return new Fall(
    elements.map((element) =>
      element.kind === 'accumulator' ? resistor(element.id, ...element.nodes, element.resistance!) : element,
    ),
  );
}

describe('the heat of a fall in one of its resistances', () => {
  it('goes as is proved, all over the ranges of random series-parallel circuits', () => {
    const next = random(211);
    const tally: Tally = { wrong: [], proved: 0, open: 0 };
    for (let round = 0; round < 60; round += 1) {
      const fall = randomFall(next, 2 + (round % 6));
      if (fall.state === undefined) continue;
      const nameOf = (index: number) => fall.compiled.parameters[index]!.element;
      for (const part of fall.resistors.slice(0, 3)) {
        const directed = {
          name: `${round} ${part.id}`,
          value: (values: Values) => fall.heat(part, values),
          direction: fall.state.heat(part, fall.box),
          least: Number.MIN_VALUE,
        };
        compareDirections(fall.box, directed, nameOf, next, tally);
      }
    }
    const { wrong, proved, open } = tally;
    expect(wrong).toEqual([]);
    // All is proved but its own resistance where the summit lies inside its range.
    expect(proved).toBeGreaterThan(20 * open);
    expect(proved).toBeGreaterThan(400);
  });

  it('is largest at the geometric mean of what the resistance sees with the capacitor shorted and open', () => {
    const next = random(212);
    let inside = 0;
    for (let round = 0; round < 40; round += 1) {
      const fall = randomFall(next, 3 + (round % 5));
      const [part] = fall.resistors;
      if (fall.state === undefined || part === undefined) continue;
      const values = somewhere(fall.box, next);
      const summit = fall.state.heatSummit(part, values);
      const heat = (ohms: number) => {
        const at = values.slice();
        at[part.primary] = ohms;
        return fall.heat(part, at);
      };
      // Where it sees nothing in series, or nothing across, but for rounding there is no summit.
      const ratio = summit / values[part.primary]!;
      if (ratio < 1e-4 || ratio > 1e4 || heat(summit) === 0) continue;
      inside += 1;
      for (const step of [0.5, 0.9, 0.99, 1.01, 1.1, 2]) expect(heat(step * summit)).toBeLessThan(heat(summit));
    }
    expect(inside).toBeGreaterThan(10);
  });

  it('of 1 kΩ behind 1 Ω with 1 MΩ across: summit at 1 kΩ by hand', () => {
    // Shorted it sees 1 Ω, open 1 MΩ + 1 Ω: √(1 · 1 000 001) = 1000 Ω.
    const fall = new Fall([
      capacitor('link', 'x', 'n', exact(1e-3)),
      resistor('cable', 'x', 'y', exact(1)),
      resistor('dis', 'y', 'n', within(1000, 0.05)),
      resistor('meter', 'x', 'n', exact(1e6)),
    ]);
    const dis = fall.compiled.byId.get('dis')!;
    expect(fall.state!.heatSummit(dis, fall.box.nominal)).toBeCloseTo(Math.sqrt(1_000_001), 6);
    expect(fall.state!.heat(dis, fall.box)(dis.primary)).toBeUndefined();
  });
});
