import { describe, expect, it } from 'vitest';
import { integrate } from '../reference/integrate.js';
import { accumulator, capacitor, circuitOf, contact, exact, load, NamedRun, resistor, step } from './net.js';

/** The load's power is followed to 1e-9 (relative) within a step; a voltage adds up what a few steps leave. */
const FOLLOWED = 3e-9;

const volts = (run: NamedRun, time: number) => Number(run.voltage('x', 'n', time));
const fed = (ohms: number, power: number, initialVoltage = 0, more: Parameters<typeof load>[3] = {}) =>
  circuitOf(
    [
      accumulator('a', 'p', 'n', 400),
      resistor('r', 'p', 'x', ohms),
      capacitor('c', 'x', 'n', 1e-3, { initialVoltage }),
      load('l', 'x', 'n', { power: exact(power), ...more }),
    ],
    ['x', 'n'],
  );

describe('a load of constant power', () => {
  it('draws a capacitor down by its energy: v² = v₀² − 2Pt/C', () => {
    const circuit = circuitOf([
      capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 400 }),
      load('l', 'x', 'n', { power: exact(50) }),
    ]);
    const run = new NamedRun(circuit, []);
    for (const t of [0.01, 0.5, 1, 1.5, 1.59]) {
      expect(Math.abs(volts(run, t) / Math.sqrt(400 ** 2 - (2 * 50 * t) / 1e-3) - 1)).toBeLessThan(FOLLOWED);
      expect(Number(run.current('l', t)) * volts(run, t)).toBeCloseTo(50, 5);
    }
  });

  it.each([
    [0.1, 4],
    [0.1, 8],
    [0.2, 8],
    [0.438, 4],
    [1, 50],
    [2, 500],
  ])('has a state at every instant where the capacitor has an ESR of %f Ω and the load %f W', (esr, power) => {
    const run = new NamedRun(
      circuitOf(
        [
          accumulator('a', 'p', 'n', 420),
          resistor('r', 'p', 'x', 32),
          capacitor('c', 'x', 'n', 3e-4, { esr: exact(esr) }),
          load('l', 'x', 'n', { power: exact(power) }),
        ],
        ['x', 'n'],
      ),
      [],
    );
    // In the end v = 420 − 32·P/v, the upper root, or below 1 V the load is a resistance of 1 V²/P and the divider holds.
    const divider = 420 / (1 + 32 * power);
    const upper = 210 + Math.sqrt(210 ** 2 - 32 * power);
    const end = volts(run, 1e3);
    expect(Math.min(Math.abs(end / divider - 1), Math.abs(end / upper - 1))).toBeLessThan(FOLLOWED);
    // At the first instant the ESR alone holds the voltage: power and current of the load must agree there too.
    const [first, current] = [volts(run, 0), Number(run.current('l', 0))];
    expect(current / (first < 1 ? first * power : power / first)).toBeCloseTo(1, 6);
  });

  it('agrees with an integrator in a rise from where it wakes', () => {
    const run = new NamedRun(fed(1000, 20, 0, { startsAbove: 250, stopsBelow: 100 }), []);
    const wakes = Math.log(400 / 150);
    expect(run.events[0]!.time).toBeCloseTo(wakes, 11);
    for (const t of [1.2, 2, 5]) {
      const [expected] = integrate((_, [v]) => [(400 - v!) / 1 - 20 / (v! * 1e-3)], [250], wakes, t);
      expect(Math.abs(volts(run, t) / expected! - 1)).toBeLessThan(FOLLOWED);
    }
  });

  it('settles at the upper root of v·(V − v)/R = P', () => {
    const run = new NamedRun(fed(1000, 20, 400), []);
    const upper = (400 + Math.sqrt(400 ** 2 - 4 * 20 * 1000)) / 2;
    expect(volts(run, 1e5)).toBeCloseTo(upper, 9);
    expect(run.timeline.segments.at(-1)!.end).toBe(Infinity);
  });

  it('from empty, stalls where it takes all that comes, as a resistance below 1 V', () => {
    // Below 1 V the load is P Ω⁻¹·V²: v = 400/(1 + 1000·20), far below 1 V.
    const run = new NamedRun(fed(1000, 20), []);
    expect(volts(run, 1e5)).toBeCloseTo(400 / (1 + 20_000), 9);
  });

  it('collapses where there is no equilibrium, and ends below 1 V', () => {
    // 4PR = 200 000 > 400².
    const run = new NamedRun(fed(1000, 50, 400), []);
    const [early] = integrate((_, [v]) => [400 - v! - 50 / (v! * 1e-3)], [400], 0, 1);
    expect(Math.abs(volts(run, 1) / early! - 1)).toBeLessThan(FOLLOWED);
    expect(volts(run, 1e4)).toBeCloseTo(400 / (1 + 50_000), 9);
  });

  it('beside a plain resistor and a second capacitor agrees with an integrator, through a switch', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 400),
      resistor('r', 'p', 'x', 100),
      capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 300 }),
      resistor('cable', 'x', 'y', 5),
      capacitor('d', 'y', 'n', 5e-4, { initialVoltage: 300 }),
      load('l', 'y', 'n', { power: exact(200) }),
      contact('k', 'y', 'z'),
      resistor('bleed', 'z', 'n', 900),
    ]);
    const run = new NamedRun(circuit, [step({ at: 0.05 }, { close: ['k'] })]);
    const slope =
      (leak: number) =>
      (_: number, [v, w]: readonly number[]) => [
        ((400 - v!) / 100 - (v! - w!) / 5) / 1e-3,
        ((v! - w!) / 5 - 200 / w! - w! * leak) / 5e-4,
      ];
    const half = integrate(slope(0), [300, 300], 0, 0.05);
    const end = integrate(slope(1 / 900), half, 0.05, 0.2);
    expect(Math.abs(Number(run.voltage('y', 'n', 0.05)) / half[1]! - 1)).toBeLessThan(FOLLOWED);
    expect(Math.abs(Number(run.voltage('x', 'n', 0.2)) / end[0]! - 1)).toBeLessThan(FOLLOWED);
    expect(Math.abs(Number(run.voltage('y', 'n', 0.2)) / end[1]! - 1)).toBeLessThan(FOLLOWED);
  });

  it('at two places, behind cables of their own, each with a load beside it, agrees with an integrator', () => {
    const circuit = circuitOf(
      [
        accumulator('a', 'p', 'n', 400),
        resistor('r', 'p', 'x', 100),
        capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 200 }),
        resistor('left', 'x', 'y', 0.5),
        capacitor('d', 'y', 'n', 5e-4, { initialVoltage: 200 }),
        load('l', 'y', 'n', { power: exact(60) }),
        load('l2', 'y', 'n', { power: exact(20) }),
        resistor('right', 'x', 'z', 2),
        capacitor('e', 'z', 'n', 3e-4, { initialVoltage: 200 }),
        load('m', 'z', 'n', { power: exact(120) }),
      ],
      ['x', 'n'],
    );
    const run = new NamedRun(circuit, []);
    const slope = (_: number, [v, w, u]: readonly number[]) => [
      ((400 - v!) / 100 - (v! - w!) / 0.5 - (v! - u!) / 2) / 1e-3,
      ((v! - w!) / 0.5 - 80 / w!) / 5e-4,
      ((v! - u!) / 2 - 120 / u!) / 3e-4,
    ];
    for (const t of [1e-4, 0.01, 0.3]) {
      const expected = integrate(slope, [200, 200, 200], 0, t);
      ['x', 'y', 'z'].forEach((node, k) => {
        expect(Math.abs(Number(run.voltage(node, 'n', t)) / expected[k]! - 1)).toBeLessThan(FOLLOWED);
      });
    }
    expect(Number(run.current('l', 0.3)) / Number(run.current('l2', 0.3))).toBeCloseTo(3, 12);
    // In the end no capacitor carries anything: node equations, the upper root of a fixed-point iteration that contracts there.
    let [v, w, u] = [400, 400, 400];
    for (let k = 0; k < 400; k += 1) {
      v = 400 - 100 * (80 / w + 120 / u);
      w = v - (0.5 * 80) / w;
      u = v - (2 * 120) / u;
    }
    expect(Number(run.voltage('z', 'n', 1e4)) / u).toBeCloseTo(1, 9);
  });

  it.each([
    ['from where it wakes', fed(1000, 5, 0, { startsAbove: 20, stopsBelow: 10 })],
    ['from empty', fed(100, 0.02)],
    ['in a collapse', fed(1000, 50, 400)],
  ])('is followed %s in some tens of steps: a request asks for hundreds of runs', (_, circuit) => {
    expect(new NamedRun(circuit, []).timeline.segments.length).toBeLessThan(100);
  });

  it('that sags through the last voltage at which it finds its power stays below it, and does not chatter on the edge', () => {
    // 60 W behind 6 mΩ: v² − v_c·v + rP = 0 has no root below v_c = 2·√(rP) = 1.2 V; 4PR is above 400².
    const circuit = circuitOf(
      [
        accumulator('a', 'p', 'n', 400),
        resistor('r', 'p', 'x', 680),
        capacitor('c', 'x', 'n', 3e-4, { esr: exact(0.006) }),
        load('l', 'x', 'n', { power: exact(60), startsAbove: 300 }),
      ],
      ['x', 'n'],
    );
    for (const esr of [0.002, 0.004, 0.006, 0.0061, 0.008]) {
      const elements = circuit.elements.map((element) =>
        element.id === 'c' ? { ...element, esr: exact(esr) } : element,
      );
      const run = new NamedRun({ ...circuit, elements }, []);
      expect(volts(run, 1e5)).toBeCloseTo(400 / (1 + 680 * 60), 9);
    }
  });
});

describe('a load of constant power behind a resistance', () => {
  // From E behind R it takes P at E/2 + √(E²/4 − P·R), and nothing at all from E = 2·√(P·R) down: there it stands at half of that.
  const R = 20;
  const P = 300;
  const behind = (stopsBelow: number) =>
    new NamedRun(
      circuitOf(
        [
          capacitor('c', 'x', 'n', 2e-4, { initialVoltage: 220 }),
          resistor('r', 'x', 'y', R),
          load('l', 'y', 'n', { power: exact(P), startsAbove: 160, stopsBelow }),
        ],
        ['x', 'n'],
      ),
      [],
    );

  it.each([60, 76])('falls asleep where its voltage is lost below where it stops (%i V)', (stopsBelow) => {
    const run = behind(stopsBelow);
    expect(run.events.map(({ changed }) => changed)).toEqual([['l']]);
    // What is left stays: nothing else takes from the capacitor.
    expect(volts(run, 1)).toBeCloseTo(2 * Math.sqrt(P * R), 1);
    expect(run.current('l', 1)).toBe(0);
  });

  it('goes on as a resistance where it never stops', () => {
    expect(volts(behind(0), 0.1)).toBeLessThan(1e-6);
  });
});
