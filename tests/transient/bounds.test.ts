import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../src/transient/bounds.js';
import { boxOf } from '../../src/transient/box.js';
import { compileCircuit, type Values } from '../../src/transient/compiled-circuit.js';
import { firstAtOrAbove } from '../../src/transient/crossings.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { accumulator, capacitor, circuitOf, modesOf, resistor, sumOf, within } from './net.js';
import { random } from './random.js';

const bare = (nominal: number) => ({ min: nominal, nominal, max: nominal, toleranceStated: false });

function setting(elements: Parameters<typeof circuitOf>[0]) {
  const compiled = compileCircuit(circuitOf(elements));
  const solve = (values: Values) =>
    new StateSolution(compiled, values, modesOf(compiled), {
      capacitorVoltages: compiled.capacitors.map(() => 0),
    });
  return { compiled, solve, box: boxOf(compiled, () => 0.1) };
}

describe('extremes inside a range (design page, section 5)', () => {
  it('time to 90 % at the first of two 500 µF behind 1 kΩ, the second behind 2660 Ω ± 20 %', () => {
    const { compiled, solve, box } = setting([
      accumulator('a', 'p', 'n', 400),
      resistor('r1', 'p', 'x', 1000),
      capacitor('c1', 'x', 'n', 500e-6),
      resistor('r2', 'x', 'y', within(2660, 0.2)),
      capacitor('c2', 'y', 'n', 500e-6),
    ]);
    const [x, n] = [compiled.nodes.get('x')!, compiled.nodes.get('n')!];
    const time = (values: Values) => firstAtOrAbove(sumOf(solve(values).voltage(x, n)), 360, Infinity, 400) ?? Infinity;
    const r2 = compiled.byId.get('r2')!.primary;
    const at = (ohms: number) => time(box.nominal.map((value, index) => (index === r2 ? ohms : value)));
    expect([at(0.8 * 2660), at(1.2 * 2660)].map((t) => t.toFixed(4))).toEqual(['2.7580', '2.7590']);
    const bounds = boundsOf(box, time, { direction: () => undefined, inner: () => true });
    expect(bounds.max.value.toFixed(4)).toBe('2.7755');
    expect(bounds.proved).toBe(false);
    // Nothing on a fine grid lies beyond.
    for (let k = 0; k <= 200; k += 1)
      expect(at(2660 * (0.8 + 0.002 * k))).toBeLessThanOrEqual(bounds.max.value * (1 + 1e-9));
  });

  it('peak power of one of two resistors in series, 1000 and 1100 Ω ± 10 % at 500 V: matched load', () => {
    const { compiled, solve, box } = setting([
      accumulator('a', 'p', 'n', 500),
      resistor('r1', 'p', 'x', within(1000, 0.1)),
      resistor('r2', 'x', 'n', within(1100, 0.1)),
    ]);
    const r1 = compiled.byId.get('r1')!;
    const power = (values: Values) => sumOf(solve(values).current(r1.index)).at(0) ** 2 * values[r1.primary]!;
    const bounds = boundsOf(box, power, { direction: () => undefined, inner: (index) => index === r1.primary });
    // P = V²R₁/(R₁ + R₂)², largest at R₁ = R₂ = 990 Ω: 250 000/(4·990).
    expect(bounds.max.value.toFixed(2)).toBe('63.13');
    expect(bounds.max.value).toBeCloseTo(250_000 / (4 * 990), 7);
    expect(Math.max(power(vertex(box, [0.9, 0.9])), power(vertex(box, [1.1, 0.9]))).toFixed(2)).toBe('62.99');
    expect(bounds.min.value).toBeCloseTo(power(vertex(box, [0.9, 1.1])), 12);
  });
});

function vertex(box: ReturnType<typeof boxOf>, shares: readonly [number, number]): Values {
  const values = box.nominal.slice();
  box.uncertain.forEach(({ index }, k) => {
    values[index] = box.nominal[index]! * shares[k]!;
  });
  return values;
}

describe('boundsOf', () => {
  const box = (...sizes: number[]) => ({
    nominal: sizes.map(() => 10),
    uncertain: sizes.map((size, index) => ({ index, low: 10 - size, high: 10 + size, assumed: false })),
  });

  it('goes straight to the corner of proved directions, and calls it proved', () => {
    let calls = 0;
    const figure = ([x, y, z]: Values) => {
      calls += 1;
      return x! - 2 * y! + 0 * z!;
    };
    const bounds = boundsOf(box(1, 2, 3), figure, { direction: (index) => ([1, -1, 0] as const)[index] });
    expect([bounds.min.value, bounds.nominal, bounds.max.value, bounds.proved]).toEqual([9 - 24, -10, 11 - 16, true]);
    expect(calls).toBe(3);
    expect([...bounds.max.values]).toEqual([11, 8, 10]);
  });

  it('searches what is not proved, and does not call it so', () => {
    const bounds = boundsOf(box(1, 2), ([x, y]: Values) => x! * y!, {
      direction: (index) => (index === 0 ? 1 : undefined),
    });
    expect([bounds.min.value, bounds.max.value, bounds.proved]).toEqual([9 * 8, 11 * 12, false]);
  });

  it('finds the corner of a saddle that single effects do not show', () => {
    const bounds = boundsOf(box(1, 1), ([x, y]: Values) => (x! - 10) * (y! - 10) + 1e-3 * x!, {
      direction: () => undefined,
    });
    expect(bounds.max.value).toBeCloseTo(1 + 11e-3, 12);
    expect(bounds.min.value).toBeCloseTo(-1 + 9e-3, 12);
  });

  it('finds the higher of two summits, and what only matters there: the current between two packs that are equal at nominal', () => {
    const packs = {
      nominal: [10, 10, 10],
      uncertain: [
        { index: 0, low: 9, high: 11, assumed: false },
        { index: 1, low: 9, high: 12, assumed: false },
        { index: 2, low: 5, high: 15, assumed: false },
      ],
    };
    const bounds = boundsOf(packs, ([x, y, ohms]: Values) => Math.abs(x! - y!) / ohms!, { direction: () => undefined });
    // 9 V against 12 V over 5 Ω; 11 V against 9 V would be the lower summit, and no resistance shows at 10 V against 10 V.
    expect(bounds.max.value).toBeCloseTo(3 / 5, 12);
  });

  it('keeps what was only assumed apart from what was stated', () => {
    const mixed = {
      nominal: [10, 10],
      uncertain: [
        { index: 0, low: 9, high: 11, assumed: false },
        { index: 1, low: 5, high: 15, assumed: true },
      ],
    };
    const bounds = boundsOf(mixed, ([x, y]: Values) => x! + y!, { direction: () => 1 });
    expect([bounds.min.value, bounds.max.value, bounds.statedMin, bounds.statedMax]).toEqual([14, 26, 19, 21]);
    expect(bounds.assumedThatMatter).toEqual([1]);
    expect(
      boundsOf(mixed, ([x]: Values) => x!, { direction: (index) => (index === 0 ? 1 : 0) }).assumedThatMatter,
    ).toEqual([]);
  });

  it('lets a figure be never: unbounded at one corner', () => {
    const bounds = boundsOf(box(1), ([x]: Values) => (x! > 10.5 ? Infinity : x!), { direction: () => undefined });
    expect([bounds.min.value, bounds.max.value]).toEqual([9, Infinity]);
  });

  it('never does worse than nominal, whatever the figure', () => {
    const next = random(121);
    for (let round = 0; round < 100; round += 1) {
      const [a, b, c] = [next(), next(), next()].map((share) => 10 * (share - 0.5));
      const bounds = boundsOf(box(3, 2, 1), ([x, y, z]: Values) => Math.sin(a! * x!) + Math.cos(b! * y!) * c! * z!, {
        direction: () => undefined,
        inner: () => true,
      });
      expect(bounds.max.value).toBeGreaterThanOrEqual(bounds.nominal);
      expect(bounds.min.value).toBeLessThanOrEqual(bounds.nominal);
    }
  });
});

describe('boxOf', () => {
  it('holds stated ranges, assumed ones where a value is stated bare, and none where it is not stated', () => {
    const compiled = compileCircuit(
      circuitOf([
        accumulator('a', 'p', 'n', bare(400)),
        resistor('r', 'p', 'x', within(100, 0.05)),
        resistor('s', 'x', 'n', bare(50)),
        capacitor('c', 'x', 'n', 1e-3),
      ]),
    );
    const box = boxOf(compiled, ({ element }) => (element === 'a' ? 0 : 0.2));
    const named = box.uncertain.map(({ index, low, high, assumed }) => [
      compiled.parameters[index]!.element,
      low,
      high,
      assumed,
    ]);
    expect(named).toEqual([
      ['r', 95, 105, false],
      ['s', 40, 60, true],
    ]);
  });
});

describe('what nothing lies beyond', () => {
  const { box, compiled } = setting([accumulator('a', 'p', 'n', 400), resistor('r', 'p', 'n', within(1000, 0.2))]);
  const r = compiled.byId.get('r')!.primary;
  const current = (values: Values): number => 400 / values[r]!;
  const unproved = { direction: () => undefined };

  it('makes a search as good as a proof where the search gets there at both ends', () => {
    const outer = (end: 'min' | 'max') => 400 / (end === 'max' ? 800 : 1200);
    expect(boundsOf(box, current, { ...unproved, outer }).proved).toBe(true);
  });

  it('is the end, with a gap, where the search stays short of it', () => {
    const outer = (end: 'min' | 'max') => (end === 'max' ? 0.6 : 400 / 1200);
    const { max, min, proved } = boundsOf(box, current, { ...unproved, outer });
    expect(proved).toBe(false);
    expect(max.value).toBe(0.6);
    expect(max.gap).toBeCloseTo(0.1, 12);
    expect(min.gap).toBe(0);
  });

  it('bounds nothing where something is found beyond it', () => {
    const outer = (end: 'min' | 'max') => (end === 'max' ? 0.45 : 400 / 1200);
    const { max, proved } = boundsOf(box, current, { ...unproved, outer });
    expect(proved).toBe(false);
    expect(max.value).toBeCloseTo(0.5, 12);
    expect(max.gap).toBeNull();
  });
});
