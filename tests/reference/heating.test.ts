import { describe, expect, it } from 'vitest';
import type { Resistor } from '../../src/circuit/model.js';
import { permanentAllowance } from '../../src/limits/ratings/permanent-allowance.js';
import { timedAllowance } from '../../src/limits/ratings/timed-allowance.js';
import type { HeatPath } from '../../src/transient/heat-path.js';
import { type Piece, piecesOf } from '../../src/transient/piecewise.js';
import { type Pulses, ThermalHistory } from '../../src/transient/thermal-history.js';
import { accumulator, capacitor, circuitOf, contact, exact, load, NamedRun, resistor, step } from '../transient/net.js';
import { integrate } from './integrate.js';

/** The rise of two capacitors on a cable through 500 Ω, a load beside them. */
function run() {
  const circuit = circuitOf(
    [
      accumulator('a', 'p', 'n', 400, 0.2),
      contact('k', 'p', 'q'),
      resistor('r', 'q', 'x', 500),
      capacitor('c1', 'x', 'n', 8e-4, { esr: exact(0.1) }),
      resistor('cable', 'x', 'y', 120),
      capacitor('c2', 'y', 'n', 3e-4),
      load('l', 'y', 'n', { resistance: exact(2e4) }),
    ],
    ['x', 'n'],
  );
  return new NamedRun(circuit, [step({ at: 0 }, { close: ['k'] })], { openCircuitVoltage: 400 });
}

const currentOf = (named: NamedRun, id: string): Piece[] =>
  piecesOf(named.timeline, (solution) => solution.current(named.compiled.byId.get(id)!.index));

function amperes(current: readonly Piece[], time: number): number {
  const piece = current.findLast(({ start }) => start <= time);
  return piece?.signal === undefined || time > piece.end ? 0 : piece.signal.at(time - piece.start);
}

/** T' = (R·i² − (T − Tₐ)/R_th)/C_th through every pulse and pause, an interval of the integrator for each. */
function integrated({ resistance, capacitance, ohms }: HeatPath, rows: readonly Pulses[], points: number): number[] {
  const slope = (current: readonly Piece[] | undefined, t: number, rise: number): number =>
    ((current === undefined ? 0 : ohms * amperes(current, t) ** 2) - rise / resistance) / capacitance;
  const temperatures: number[] = [];
  let rise = 0;
  for (const { current, until, count, interval } of rows) {
    for (let k = 0; k < count; k += 1) {
      for (const [from, to, flowing] of [
        [0, until, current],
        [until, interval, undefined],
      ] as const) {
        for (let j = 0; j < points && to > from; j += 1) {
          const [begin, end] = [j, j + 1].map((each) => from + ((to - from) * each) / points) as [number, number];
          [rise] = integrate((t, [y]) => [slope(flowing, t, y!)], [rise], begin, end, 1e-12) as [number];
          temperatures.push(rise);
        }
      }
    }
  }
  return temperatures;
}

// Source: the differential equation of a single thermal mass, integrated by odex (Hairer and Wanner's extrapolation method).
describe('the temperature of a resistor against an integrator', () => {
  const rise = currentOf(run(), 'r');
  const small: HeatPath = { resistance: 4, capacitance: 1.5, ohms: 500 };

  it.each<readonly [string, HeatPath, readonly Pulses[]]>([
    ['one start', small, [{ current: rise, until: 2, count: 1, interval: 20 }]],
    ['four starts, not quite cool between', small, [{ current: rise, until: 2, count: 4, interval: 6 }]],
    [
      'starts back to back in a large mass',
      { ...small, capacitance: 60 },
      [{ current: rise, until: 2, count: 6, interval: 2 }],
    ],
    [
      'two attempts that are given up, then one that runs through',
      small,
      [
        { current: rise, until: 0.3, count: 2, interval: 1 },
        { current: rise, until: 2.5, count: 1, interval: 10 },
      ],
    ],
  ])('%s', (_, path, rows) => {
    const history = new ThermalHistory(path, rows);
    const points = 8;
    const expected = integrated(path, rows, points);
    const instants: number[] = [];
    let start = 0;
    for (const { until, count, interval } of rows) {
      for (let k = 0; k < count; k += 1, start += interval)
        for (const [from, to] of [
          [0, until],
          [until, interval],
        ] as const)
          for (let j = 1; j <= points && to > from; j += 1) instants.push(start + from + ((to - from) * j) / points);
    }
    const scale = Math.max(...expected);
    // Up to the last end: there the history has begun to cool from what the integrator ends with.
    instants.forEach((time, k) => {
      expect(Math.abs(history.riseAt(time) - expected[k]!)).toBeLessThan(1e-9 * scale);
    });
    expect(history.peak()).toBeGreaterThanOrEqual(scale * (1 - 1e-9));
  });

  it('reads the peak of a pulse between any two instants', () => {
    const rows = [{ current: rise, until: 6, count: 1, interval: 20 }];
    const peak = new ThermalHistory(small, rows).peak();
    const fine = Math.max(...integrated(small, rows, 600));
    // 10 ms apart around a maximum of some seconds' width: 1e-5 is the most that is missed between them.
    expect(peak).toBeGreaterThanOrEqual(fine);
    expect(peak / fine - 1).toBeLessThan(1e-5);
  });

  it('of a fall cut by the next one, three times in 15 s', () => {
    const charged = circuitOf(
      [capacitor('c', 'x', 'n', 1e-3, { initialVoltage: 400 }), resistor('dis', 'x', 'n', 2000)],
      ['x', 'n'],
    );
    const fall = currentOf(new NamedRun(charged, []), 'dis');
    const path: HeatPath = { resistance: 6, capacitance: 2, ohms: 2000 };
    const rows: Pulses[] = [{ current: fall, until: 5, count: 3, interval: 5 }];
    const last = integrated(path, rows, 20);
    const history = new ThermalHistory(path, rows);
    expect(history.riseAt(15 - 1e-12) / last.at(-1)!).toBeCloseTo(1, 9);
    expect(history.peak()).toBeGreaterThanOrEqual(Math.max(...last));
  });
});

// Source: MIL-PRF-39009E 4.8.8 and 3.14, as in our collection of facts: chassis-mounted wirewound, 5 × rated power for 5 s, full
// power at 25 °C on the stated chassis, zero at 250 °C.
describe('a chassis-mounted wirewound of the military specification', () => {
  const part = (ambient: number): Resistor => ({
    ...resistor('r', 'a', 'b', 100, {
      technology: 'wirewound',
      mounting: 'as-rated',
      ambientMax: ambient,
      ratings: { power: 50, fullPowerUpTo: 25, zeroPowerAt: 250, overload: { factor: 5, duration: 5 } },
    }),
  });
  const circuit = circuitOf([part(25)]);

  it('stands five times its rated power for 5 s and not surely any longer', () => {
    expect(timedAllowance(part(25), circuit, 5)).toEqual({ atLeast: 250, atMost: 250, missing: [] });
    expect(timedAllowance(part(25), circuit, 5.001).atLeast).toBe(50);
  });

  it.each([
    [25, 50],
    [137.5, 25],
    [250, 0],
  ])('at %d °C stands %d W for ever', (ambient, watts) => {
    expect(permanentAllowance(part(ambient), circuit).atLeast).toBeCloseTo(watts, 12);
  });

  it('as a single mass at 250 °C with its rated power comes to just that by the overload where it holds 4.98 J/K', () => {
    // (250 − 25)/50 = 4.5 K/W. 225 K = 250 W·4.5·(1 − e^(−5/τ)): τ = 5/ln(1.25) = 22.4 s, so 4.98 J/K.
    const resistance = 225 / 50;
    const capacitance = 5 / Math.log(1.25) / resistance;
    const rows = new NamedRun(circuitOf([accumulator('a', 'p', 'n', 100), resistor('r', 'p', 'n', 40)]), []);
    const history = new ThermalHistory({ resistance, capacitance, ohms: 40 }, [
      { current: currentOf(rows, 'r'), until: 5, count: 1, interval: Infinity },
    ]);
    expect(history.peak()).toBeCloseTo(225, 9);
  });
});
