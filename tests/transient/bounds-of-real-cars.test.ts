import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { boxOf } from '../../src/transient/box.js';
import { type Bounds, boundsOf } from '../../src/transient/bounds.js';
import { compileCircuit, type Modes, type Values } from '../../src/transient/compiled-circuit.js';
import { NetworkSigns } from '../../src/transient/network-signs.js';
import { OneState } from '../../src/transient/one-state.js';
import { piecesOf, timeToReach } from '../../src/transient/piecewise.js';
import { startModes } from '../../src/transient/start-modes.js';
import { runTimeline } from '../../src/transient/timeline.js';
import { accumulator, capacitor, circuitOf, connector, exact, load, meter, modesOf, resistor } from './net.js';

const VOLTS = 600;

function bounded(elements: readonly Element[], pair: readonly [string, string], what: 'ratio' | 'time'): Bounds {
  const compiled = compileCircuit(circuitOf(elements, ['lp', 'ln']));
  const box = boxOf(compiled, () => 0);
  const modes: Modes = modesOf(compiled);
  const [a = -1, b = -1] = pair.map((name) => compiled.nodes.get(name));
  const state = OneState.of({ compiled, box, modes, course: 'rise', pairs: [{ a, b }] });
  const figure = (values: Values): number => {
    const timeline = runTimeline({ compiled, values, steps: [], until: Infinity, openCircuitVoltage: VOLTS });
    const pieces = piecesOf(timeline, (solution) => solution.voltage(a, b));
    const limit = pieces.at(-1)?.signal?.limit() ?? 0;
    return what === 'ratio' ? limit / VOLTS : timeToReach(pieces, 0.95 * VOLTS, VOLTS);
  };
  const direction = what === 'ratio' ? state?.steadyVoltage({ a, b }) : state?.timeToReach({ a, b }, 0.95, box);
  return boundsOf(box, figure, { direction: (index) => direction?.(index) });
}

const wide = { min: 0, nominal: 0, max: 200, toleranceStated: true };

describe('a connector that has no resistance at nominal and may have some', () => {
  const car = (...plugs: Element[]): Element[] => [
    accumulator('pack', 'a', 'ln', VOLTS),
    resistor('r', 'a', 'x', 1000),
    ...plugs,
    capacitor('c', 'lp', 'ln', 500e-6),
    meter('m', 'lp', 'ln', 47_000),
  ];
  // The divider: 47 kΩ / (1 kΩ + plug + 47 kΩ).
  const least = 47_000 / 48_200;
  const most = 47_000 / 48_000;

  it.each([
    ['x', 'lp'],
    ['lp', 'x'],
  ])('lowers the equilibrium whichever way round it is written (%s to %s)', (from, to) => {
    const { min, max, proved } = bounded(
      car({ ...connector('plug', from, to), resistance: wide }),
      ['lp', 'ln'],
      'ratio',
    );
    expect(min.value).toBeCloseTo(least, 12);
    expect(max.value).toBeCloseTo(most, 12);
    expect(proved).toBe(true);
  });

  it('does so too where two of them lie in parallel', () => {
    const plugs = ['one', 'two'].map((id) => ({ ...connector(id, 'x', 'lp'), resistance: wide }));
    const { min, max } = bounded(car(...plugs), ['lp', 'ln'], 'ratio');
    expect(min.value).toBeCloseTo(47_000 / 48_100, 12);
    expect(max.value).toBeCloseTo(most, 12);
  });
});

describe('the ESR of a capacitor behind a resistance of its own', () => {
  it('keeps the nominal time within the bounds', () => {
    const car = [
      accumulator('pack', 'a', 'ln', VOLTS),
      resistor('r', 'a', 'lp', 100),
      resistor('series', 'lp', 'p', 1000),
      capacitor('c', 'p', 'ln', 500e-6, { esr: { min: 1, nominal: 100, max: 400, toleranceStated: true } }),
    ];
    const { min, nominal, max } = bounded(car, ['lp', 'ln'], 'time');
    expect(min.value).toBeLessThanOrEqual(nominal);
    expect(max.value).toBeGreaterThanOrEqual(nominal);
  });
});

describe('directions of the end of a rise', () => {
  const directionsOf = (elements: readonly Element[], [a, b]: readonly [string, string]) => {
    const compiled = compileCircuit(circuitOf(elements, [a, b]));
    const pair = { a: compiled.nodes.get(a)!, b: compiled.nodes.get(b)! };
    const box = boxOf(compiled, () => 0);
    const signs = NetworkSigns.of({ compiled, box, modes: modesOf(compiled), course: 'rise', pairs: [pair] });
    const table = signs?.steadyVoltage(pair);
    return (id: string) => table?.(compiled.byId.get(id)!.primary);
  };
  const car = (...more: Element[]): Element[] => [
    accumulator('pack', 'bp', 'ln', VOLTS),
    resistor('pre', 'bp', 'lp', 1000),
    ...more,
  ];

  it('are not lost to the rounding of a chassis that hangs on capacitors alone', () => {
    const direction = directionsOf(
      car(
        meter('meter', 'lp', 'ln', 47_000),
        capacitor('link', 'lp', 'ln', 5e-4),
        resistor('cable', 'lp', 'up', 0.05),
        capacitor('filter', 'up', 'ln', 1e-4),
        capacitor('y-pos', 'lp', 'chassis', 1e-6),
        capacitor('y-neg', 'chassis', 'ln', 1e-6),
      ),
      ['lp', 'ln'],
    );
    // The divider. The pack has no resistance of its own, and hangs on the very node that the link is probed at.
    expect(direction('pre')).toBe(-1);
    expect(direction('meter')).toBe(1);
    expect(direction('pack')).toBe(1);
  });

  it('are not claimed of a pair between which capacitors alone divide the voltage', () => {
    const direction = directionsOf(car(capacitor('upper', 'lp', 'mid', 4e-4), capacitor('lower', 'mid', 'ln', 5e-4)), [
      'mid',
      'ln',
    ]);
    // V·C₁/(C₁ + C₂) in the end: both matter.
    expect(direction('upper')).toBeUndefined();
    expect(direction('lower')).toBeUndefined();
  });
});

describe('a constant-power load at rest', () => {
  it('keeps its power where the circuit is changed under it', () => {
    const compiled = compileCircuit(
      circuitOf(
        [
          accumulator('pack', 'a', 'g', 400),
          resistor('r', 'a', 'p', 1),
          capacitor('c', 'p', 'g', 500e-6, { initialVoltage: 394.93 }),
          load('l', 'p', 'g', { power: exact(2000), startsAbove: 300, stopsBelow: 100 }),
          { ...connector('plug', 'p', 'q') },
          resistor('cable', 'q', 's', 2),
          capacitor('empty', 's', 'g', 1e-3),
        ],
        ['p', 'g'],
      ),
    );
    const values = compiled.parameters.map(({ range }) => range.nominal);
    const steps = [{ at: 0.5, close: ['plug'], open: [], release: false }];
    const { segments } = runTimeline({
      compiled,
      values,
      steps,
      until: 1,
      openCircuitVoltage: 400,
      starts: startModes(compiled, { open: new Set(['plug']) }),
    });
    const [p = -1, g = -1] = ['p', 'g'].map((name) => compiled.nodes.get(name));
    const element = compiled.byId.get('l')?.index ?? -1;
    for (const time of [0.4, 0.5005, 0.501, 0.502, 0.51, 0.9]) {
      const segment = segments.findLast(({ start }) => start <= time);
      const voltage = segment?.solution.voltage(p, g);
      const current = segment?.solution.current(element);
      if (segment === undefined || typeof voltage !== 'object' || typeof current !== 'object')
        throw new Error('no value');
      const elapsed = time - segment.start;
      // The load is followed to 1e-9 of its power.
      expect(voltage.at(elapsed) * current.at(elapsed)).toBeCloseTo(2000, 3);
    }
  });
});
