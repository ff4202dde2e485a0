import { describe, expect, it } from 'vitest';
import type { Element, Step } from '../../src/circuit/model.js';
import { accumulator, capacitor, circuitOf, contact, exact, load, NamedRun, resistor, step } from '../transient/net.js';
import { stateEquation } from '../transient/mna.js';
import { decades, random } from '../transient/random.js';
import { integrate } from './integrate.js';

/** The integrator's own tolerance is 1e-13 a step; ten thousand steps add up to this, relative to the source. */
const INTEGRATED = 1e-9;

interface Leg {
  readonly closed: readonly string[];
  readonly until: number;
}

/** Capacitor voltages at the end of each leg, by integration of Kirchhoff's tableau leg by leg. */
function integrated(elements: readonly Element[], legs: readonly Leg[]): Map<string, number>[] {
  const circuit = circuitOf(elements);
  let from = 0;
  let volts = new Map(
    circuit.elements.flatMap((element) =>
      element.kind === 'capacitor' ? [[element.id, element.initialVoltage] as const] : [],
    ),
  );
  return legs.map(({ closed, until }) => {
    const { states, farads, conductance, offset } = stateEquation(circuit, closed);
    const matrix = conductance.map((row, i) => row.map((g) => g.div(farads[i]!).toNumber()));
    const drive = offset.map((i, k) => i.div(farads[k]!).toNumber());
    const slope = (_: number, v: readonly number[]) =>
      matrix.map((row, i) => row.reduce((sum, a, k) => sum - a * v[k]!, drive[i]!));
    const end = integrate(
      slope,
      states.map((id) => volts.get(id)!),
      from,
      until,
    );
    volts = new Map(states.map((id, k) => [id, end[k]!]));
    from = until;
    return volts;
  });
}

function worst(elements: readonly Element[], legs: readonly Leg[], steps: readonly Step[]): number {
  const run = new NamedRun(circuitOf(elements), steps);
  let error = 0;
  integrated(elements, legs).forEach((volts, k) => {
    const { until } = legs[k]!;
    for (const [id, exactly] of volts) {
      const { source } = run.compiled.byId.get(id)!;
      // Just before the next step moves anything.
      const segment = run.timeline.segments.findLast(({ start }) => start < until)!;
      const position = run.compiled.capacitors.indexOf(run.compiled.byId.get(source.id)!.index);
      error = Math.max(
        error,
        Math.abs(segment.solution.capacitorVoltage(position).at(until - segment.start) - exactly),
      );
    }
  });
  return error / 600;
}

// Source: E. Hairer, S. P. Nørsett, G. Wanner, "Solving Ordinary Differential Equations I", the code ODEX in its port to JavaScript.
describe('whole runs against an integrator', () => {
  it('a ladder of thirty capacitors, charged and let go', () => {
    const next = random(211);
    const elements: Element[] = [accumulator('a', 'p', 'n', 600, 1), contact('k', 'p', 'x00')];
    for (let k = 0; k < 30; k += 1) {
      const [left, right] = [k, k + 1].map((each) => `x${String(each).padStart(2, '0')}`);
      elements.push(resistor(`r${right}`, left!, right!, decades(next, 1, 2)));
      elements.push(
        capacitor(`c${right}`, right!, 'n', decades(next, -4, -3), { initialVoltage: k % 5 === 0 ? 100 * next() : 0 }),
      );
    }
    const steps = [step({ at: 0 }, { close: ['k'] }), step({ at: 0.4 }, { open: ['k'] })];
    expect(
      worst(
        elements,
        [
          { closed: ['k'], until: 0.4 },
          { closed: [], until: 1 },
        ],
        steps,
      ),
    ).toBeLessThan(INTEGRATED);
  });

  it('random circuits switched four times: pre-charge, close, open, discharge', () => {
    const next = random(212);
    let error = 0;
    for (let round = 0; round < 12; round += 1) {
      const esr = () => exact(decades(next, -1, 1));
      const elements = [
        accumulator('a', 'p', 'n', 600, decades(next, 0, 1)),
        contact('air-pos', 'p', 'x', { resistance: exact(decades(next, -1, 0)) }),
        contact('pre', 'p', 'q'),
        resistor('r-pre', 'q', 'x', decades(next, 1.5, 3)),
        capacitor('c1', 'x', 'n', decades(next, -4, -2.5), { esr: esr() }),
        resistor('cable', 'x', 'y', decades(next, -0.5, 2)),
        capacitor('c2', 'y', 'n', decades(next, -4, -3), { initialVoltage: 50 * next() }),
        ...(round % 2 === 0
          ? [
              capacitor('c3', 'y', 'm', decades(next, -4, -3)),
              capacitor('c4', 'm', 'n', decades(next, -4, -3), { esr: esr() }),
              resistor('balance', 'm', 'n', 10_000),
            ]
          : [
              capacitor('y1', 'x', 'g', 2e-5),
              capacitor('y2', 'n', 'g', 3e-5, { esr: esr() }),
              resistor('iso', 'n', 'g', 3000),
            ]),
        contact('dis', 'y', 'd', { rest: 'closed' }),
        resistor('r-dis', 'd', 'n', decades(next, 2, 3.5)),
      ];
      const steps = [
        step({ at: 0 }, { close: ['pre'], open: ['dis'] }),
        step({ at: 0.2 }, { close: ['air-pos'] }),
        step({ at: 0.25 }, { open: ['pre'] }),
        step({ at: 0.3 }, { release: true }),
      ];
      const legs = [
        { closed: ['pre'], until: 0.2 },
        { closed: ['pre', 'air-pos'], until: 0.25 },
        { closed: ['air-pos'], until: 0.3 },
        { closed: ['dis'], until: 0.6 },
      ];
      error = Math.max(error, worst(elements, legs, steps));
    }
    expect(error).toBeLessThan(INTEGRATED);
  });

  it('a current load through its knee, one that wakes, and the switch between them', () => {
    // dv/dt written out by hand; the corners are met at their crossing, found by bisection on the integrated curve.
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 60),
      resistor('r', 'p', 'x', 20),
      capacitor('c', 'x', 'n', 1e-3),
      load('pump', 'x', 'n', { current: exact(0.8) }),
      load('inverter', 'x', 'n', { resistance: exact(150), startsAbove: 30, stopsBelow: 10 }),
    ]);
    const run = new NamedRun(circuit, []);
    const slope =
      (leak: number) =>
      (_: number, [v]: readonly number[]) => [((60 - v!) / 20 - 0.8 * Math.min(1, v!) - v! * leak) / 1e-3];
    const meets = (level: number, leak: number, start: number, from: number, far: number) => {
      let [low, high] = [from, far];
      for (let k = 0; k < 45; k += 1) {
        const middle = (low + high) / 2;
        if (integrate(slope(leak), [start], from, middle)[0]! < level) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    };
    const knee = meets(1, 0, 0, 0, 1e-3);
    const wakes = meets(30, 0, 1, knee, 0.05);
    expect(run.events.map(({ changed }) => changed)).toEqual([['pump'], ['inverter']]);
    expect(Math.abs(run.events[0]!.time - knee)).toBeLessThan(1e-11);
    expect(Math.abs(run.events[1]!.time - wakes)).toBeLessThan(1e-11);
    const [end] = integrate(slope(1 / 150), [30], wakes, 0.06);
    expect(Math.abs(Number(run.voltage('x', 'n', 0.06)) / end! - 1)).toBeLessThan(INTEGRATED);
  });
});
