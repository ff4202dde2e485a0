import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { integralOfSquare, largestSize, piecesOf } from '../../src/transient/piecewise.js';
import {
  accumulator,
  capacitor,
  circuitOf,
  contact,
  disconnect,
  exact,
  load,
  meter,
  NamedRun,
  resistor,
  step,
} from './net.js';
import { random } from './random.js';

/*
 * Signals that are small differences of large ones, and events that are over long before the next: rounding may neither wake a load nor
 * hide a peak, leave a current behind or let a charge leak away.
 */

const { pow } = Math;

describe('a load on a dead link', () => {
  it('stays at rest whatever the cables, with a pack that has no resistance and its contact open', () => {
    const next = random(3);
    const between = (low: number, high: number): number => low * pow(high / low, next());
    for (let draw = 0; draw < 120; draw += 1) {
      const draws: Element =
        draw % 2 === 0
          ? load('converter', 'b', 'z', { current: exact(between(1e-3, 1e-1)) })
          : load('converter', 'b', 'z', { power: exact(between(1, 100)) });
      const run = new NamedRun(
        circuitOf(
          [
            accumulator('pack', 'p', 'z', exact(400)),
            contact('relay', 'p', 'm'),
            resistor('pre', 'm', 'a', exact(between(50, 500))),
            capacitor('c1', 'a', 'z', exact(between(1e-4, 1e-3))),
            capacitor('c2', 'b', 'z', exact(between(1e-4, 1e-3))),
            resistor('cable', 'a', 'b', exact(between(1e-3, 1e-2))),
            meter('meter', 'a', 'z', exact(47_000)),
            draws,
          ],
          ['a', 'z'],
        ),
        [],
        { openCircuitVoltage: 400 },
      );
      expect(run.voltage('b', 'z', 1)).toBeCloseTo(0, 9);
      expect(run.events).toHaveLength(0);
    }
  });

  it('lets a converter of constant power hold it at its knee, where the load is a resistance of (1 V)²/P', () => {
    const run = new NamedRun(
      circuitOf(
        [
          accumulator('pack', 'p', 'z', exact(484)),
          contact('relay', 'p', 'm'),
          resistor('pre', 'm', 'a', exact(210.8)),
          capacitor('c1', 'a', 'z', exact(144.3e-6), { esr: exact(2.604e-3) }),
          meter('meter', 'a', 'z', exact(47_000)),
          load('converter', 'a', 'z', { power: exact(19.12) }),
        ],
        ['a', 'z'],
      ),
      [step({ at: 0 }, { close: ['relay'] }), step({ at: 1 }, { release: true })],
      { openCircuitVoltage: 484 },
    );
    const knee = 1 / (19.12 + 1 / 47_000);
    expect(run.voltage('a', 'z', 0.9)).toBeCloseTo((484 * knee) / (210.8 + knee), 9);
  });
});

describe('a peak', () => {
  it('is found where it is over in a millionth of the time that all takes', () => {
    // A film capacitor is charged over a disconnect in 75 ps and passes it on over a cable; the bleed takes minutes.
    const run = new NamedRun(
      circuitOf([
        capacitor('c1', 'a', 'n', exact(132e-6), { initialVoltage: 400 }),
        resistor('plug', 'a', 'b', exact(3.47e-3)),
        capacitor('film', 'b', 'n', exact(21.5e-9)),
        resistor('cable', 'b', 'l2', exact(2.59e-3)),
        capacitor('c2', 'l2', 'n', exact(409e-6), { esr: exact(2.97e-3) }),
        resistor('bleed', 'l2', 'n', exact(753e3)),
      ]),
      [],
    );
    const cable = run.compiled.byId.get('cable')!.index;
    const peak = largestSize(
      piecesOf(run.timeline, (solution) => solution.current(cable)),
      Infinity,
    );
    let sampled = 0;
    for (let exponent = -13; exponent < 3; exponent += 0.01)
      sampled = Math.max(sampled, Math.abs(Number(run.current('cable', pow(10, exponent)))));
    // Next to all of 400 V over the plug, the cable and the ESR.
    expect(sampled).toBeGreaterThan(0.99 * (400 / (3.47e-3 + 2.59e-3 + 2.97e-3)));
    expect(peak).toBeGreaterThanOrEqual(sampled);
    expect(peak).toBeLessThan(sampled * (1 + 1e-4));
  });
});

describe('the current in a cable', () => {
  it('keeps its own accuracy where megaohms are all that it feeds (e^(−t/RC), textbook)', () => {
    const run = new NamedRun(
      circuitOf([
        accumulator('pack', 'p', 'z', exact(400), exact(0.2)),
        resistor('cable', 'p', 'a', exact(3.812e-3)),
        resistor('leak', 'a', 'b', exact(3.75e6)),
        capacitor('link', 'b', 'z', exact(1e-6)),
      ]),
      [],
    );
    const tau = (3.75e6 + 3.812e-3 + 0.2) * 1e-6;
    for (const time of [0, 1, 10]) {
      const wanted = (400 / (tau / 1e-6)) * Math.exp(-time / tau);
      expect(Number(run.current('cable', time)) / wanted).toBeCloseTo(1, 12);
    }
  });
});

describe('the heat in a cable', () => {
  const ohms = 1e-3;
  const pack = 10.69e-3;
  const esr = 3.256e-3;
  const farads = 135.5e-6;
  const volts = 504;
  const pre = 166.5;
  /** Pre-charge for a second, the rest at once, and then on for a time. */
  const heatAfter = (seconds: number): number => {
    const run = new NamedRun(
      circuitOf([
        accumulator('pack', 'p', 'z', exact(volts), exact(pack)),
        contact('relay', 'p', 'm'),
        contact('main', 'p', 'x'),
        resistor('pre', 'm', 'x', exact(pre)),
        resistor('cable', 'x', 'l', exact(ohms)),
        capacitor('link', 'l', 'z', exact(farads), { esr: exact(esr) }),
      ]),
      [step({ at: 0 }, { close: ['relay'] }), step({ at: 0.1 }, { close: ['main'] })],
    );
    const cable = run.compiled.byId.get('cable')!.index;
    return (
      ohms *
      integralOfSquare(
        piecesOf(run.timeline, (solution) => solution.current(cable)),
        seconds,
      )
    );
  };

  it('is what the capacitor takes through it, however long it goes on (textbook: ½CΔU² over the resistance in series)', () => {
    const short = pack + ohms + esr;
    const series = pre + short;
    const left = Math.exp(-0.1 / (series * farads));
    // ∫ i² R_cable of U/R·e^(−t/RC), and of the rest U·left without the pre-charge resistor.
    const first = 0.5 * farads * volts ** 2 * (1 - left ** 2) * (ohms / series);
    const second = 0.5 * farads * (volts * left) ** 2 * (ohms / short);
    for (const seconds of [1, 36_000, 1e6]) expect(heatAfter(seconds) / (first + second)).toBeCloseTo(1, 10);
  });

  it('ends where the cable ends in a capacitor', () => {
    for (const cable of [0.5e-3, 2e-3, 5e-3, 100e-3]) {
      const run = new NamedRun(
        circuitOf([
          accumulator('pack', 'p', 'z', exact(volts), exact(0.4)),
          resistor('pre', 'p', 'a', exact(470)),
          capacitor('c1', 'a', 'z', exact(300e-6), { esr: exact(3e-3) }),
          resistor('cable', 'a', 'b', exact(cable)),
          capacitor('c2', 'b', 'z', exact(400e-6), { esr: exact(3e-3) }),
          meter('meter', 'a', 'z', exact(47_000)),
        ]),
        [],
      );
      const { index } = run.compiled.byId.get('cable')!;
      const heat =
        cable *
        integralOfSquare(
          piecesOf(run.timeline, (solution) => solution.current(index)),
          Infinity,
        );
      // Both rise as one: i = C₂·dv/dt = C₂·U·s/τ·e^(−t/τ), with the divider's s and τ = (R ∥ L)·(C₁ + C₂).
      const source = 470.4;
      const share = 47_000 / (47_000 + source);
      const tau = source * share * 700e-6;
      const wanted = (cable * (400e-6 * volts * share) ** 2) / (2 * tau);
      // What the two differ by while they share the first instants is of the order of (cable + ESR)/source.
      expect(heat / wanted).toBeGreaterThan(0.99);
      expect(heat / wanted).toBeLessThan(1.01);
    }
  });
});

describe('a charge that nothing takes away', () => {
  it('stays for ever, whatever the nodes are called', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
    const next = random(5);
    for (let draw = 0; draw < 60; draw += 1) {
      const [p, z, x, y, b, d, e] = names.toSorted(() => next() - 0.5) as [
        string,
        string,
        string,
        string,
        string,
        string,
        string,
      ];
      const run = new NamedRun(
        circuitOf([
          accumulator('pack', p, z, exact(400)),
          capacitor('c0', b, x, exact(1.128e-3), { esr: exact(24e-3) }),
          capacitor('c4', y, b, exact(209.3e-9), { initialVoltage: 232.3 }),
          capacitor('c3', d, z, exact(88.62e-6), { initialVoltage: -290.1 }),
          disconnect('k0', e, d),
          resistor('r0', b, p, exact(10e-3)),
          resistor('r1', p, b, exact(10e-3)),
        ]),
        [],
      );
      const signal = run.timeline.segments
        .at(-1)!
        .solution.voltage(run.compiled.nodes.get(e)!, run.compiled.nodes.get(z)!);
      if (typeof signal === 'string') throw new Error(signal);
      expect(signal.limit()).toBeCloseTo(-290.1, 9);
    }
  });
});
