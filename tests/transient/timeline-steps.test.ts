import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/transient/compiled-circuit.js';
import { startModes } from '../../src/transient/start-modes.js';
import { accumulator, capacitor, circuitOf, contact, NamedRun, resistor, step } from './net.js';

/** 100 V through k and 1 Ω into a 1 Ω resistor: 50 V at x while k is closed. */
const divider = (more: Parameters<typeof contact>[3] = {}) =>
  circuitOf([
    accumulator('a', 'p', 'n', 100),
    contact('k', 'p', 'q', more),
    resistor('r', 'q', 'x', 1),
    resistor('load', 'x', 'n', 1),
  ]);

/** A 100 V source, 1 kΩ and 1 mF across the link: τ = 1 s. */
const car = (...more: Parameters<typeof circuitOf>[0]) =>
  circuitOf(
    [
      accumulator('a', 'p', 'n', 100),
      contact('pre', 'p', 'q'),
      resistor('r', 'q', 'x', 1000),
      capacitor('c', 'x', 'n', 1e-3),
      ...more,
    ],
    ['x', 'n'],
  );

const when = (linkRatio: number, falling = false) => ({ when: { linkRatio, falling } });
const moves = (run: NamedRun) =>
  run.events.map(({ time, step: index, opened, closed }) => ({ time, step: index, opened, closed }));

describe('instants', () => {
  it('are those just after: t = 0 included', () => {
    const run = new NamedRun(divider(), [step({ at: 0 }, { close: ['k'] }), step({ at: 2 }, { open: ['k'] })]);
    expect(run.voltage('x', 'n', 0)).toBe(50);
    expect(run.voltage('x', 'n', 1.999)).toBe(50);
    expect(run.voltage('x', 'n', 2)).toBe(0);
  });

  it('before the first step everything is at rest', () => {
    const run = new NamedRun(divider({ rest: 'closed' }), [step({ at: 1 }, { open: ['k'] })]);
    expect(run.voltage('x', 'n', 0)).toBe(50);
    expect(run.voltage('x', 'n', 1)).toBe(0);
  });

  it('an event has the segments before and after it', () => {
    const run = new NamedRun(car(), [step({ at: 0.5 }, { close: ['pre'] })]);
    const [event] = run.events;
    const before = run.timeline.segments[event!.segment - 1]!;
    const after = run.timeline.segments[event!.segment]!;
    expect([before.start, before.end, after.start, after.end]).toEqual([0, 0.5, 0.5, Infinity]);
  });

  it('segments join without a gap, and voltages of capacitors without a jump', () => {
    const run = new NamedRun(car(resistor('bleed', 'x', 'n', 500)), [
      step({ at: 0 }, { close: ['pre'] }),
      step({ after: 0.7 }, { open: ['pre'] }),
      step({ at: 0.9 }, { close: ['pre'] }),
      step(when(0.3), { open: ['pre'] }),
    ]);
    run.timeline.segments.slice(1).forEach((segment, k) => {
      const before = run.timeline.segments[k]!;
      expect(segment.start).toBe(before.end);
      const left = before.solution.capacitorVoltage(0).at(before.end - before.start);
      expect(Math.abs(segment.solution.capacitorVoltage(0).at(0) - left)).toBeLessThan(1e-12);
    });
  });
});

describe('explicit sequences', () => {
  it('are literal: a contact that no step names stays at rest, whoever feeds it', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      contact('dis', 'p', 'x', { rest: 'closed', role: 'discharge-relay', suppliedBy: 'shutdown-circuit' }),
      contact('k', 'p', 'y'),
      resistor('r', 'x', 'n', 1),
      resistor('s', 'y', 'n', 1),
    ]);
    const run = new NamedRun(circuit, [step({ at: 0 }, { close: ['k'] })]);
    expect(run.current('dis', 5)).toBe(100);
    expect(moves(run)).toEqual([{ time: 0, step: 0, opened: [], closed: ['k'] }]);
  });

  it('`after` counts from the step before, `at` from the start', () => {
    const run = new NamedRun(divider(), [
      step({ at: 1 }, { close: ['k'] }),
      step({ after: 0.5 }, { open: ['k'] }),
      step({ after: 0.25 }, { close: ['k'] }),
      step({ at: 4 }, { open: ['k'] }),
    ]);
    expect(run.events.map(({ time }) => time)).toEqual([1, 1.5, 1.75, 4]);
  });

  it('steps at one instant run in their order, each with its own event', () => {
    const run = new NamedRun(divider(), [
      step({ at: 1 }, { close: ['k'] }),
      step({ at: 1 }, { open: ['k'] }),
      step({ after: 0 }, { close: ['k'] }),
    ]);
    expect(moves(run)).toEqual([
      { time: 1, step: 0, opened: [], closed: ['k'] },
      { time: 1, step: 1, opened: ['k'], closed: [] },
      { time: 1, step: 2, opened: [], closed: ['k'] },
    ]);
    expect(run.voltage('x', 'n', 1)).toBe(50);
  });

  it('within a step: release, then close, then open', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      contact('k', 'p', 'x', { suppliedBy: 'shutdown-circuit' }),
      contact('m', 'p', 'y', { suppliedBy: 'shutdown-circuit' }),
      resistor('r', 'x', 'n', 1),
      resistor('s', 'y', 'n', 1),
    ]);
    const run = new NamedRun(circuit, [
      step({ at: 0 }, { close: ['k', 'm'] }),
      step({ at: 1 }, { release: true, close: ['k'] }),
    ]);
    // k falls and is closed again in the same instant; m stays fallen.
    expect(run.current('k', 1)).toBe(100);
    expect(run.current('m', 1)).toBe(0);
  });

  it('stops at `until`; a step due at that very instant still runs', () => {
    const steps = [step({ at: 1 }, { close: ['k'] }), step({ at: 2 }, { open: ['k'] })];
    const run = new NamedRun(divider(), steps, { until: 1 });
    expect(moves(run)).toEqual([{ time: 1, step: 0, opened: [], closed: ['k'] }]);
    expect(run.timeline.segments.at(-1)!.end).toBe(1);
  });
});

describe('`when`', () => {
  it('fires at the first instant at the ratio: ln 20 time constants for 95 %', () => {
    const run = new NamedRun(car(), [step({ at: 0.25 }, { close: ['pre'] }), step(when(0.95), { open: ['pre'] })]);
    expect(run.events[1]!.time).toBeCloseTo(0.25 + Math.log(20), 13);
    expect(run.voltage('x', 'n', 100)).toBeCloseTo(95, 12);
  });

  it('fires at once where the ratio is already reached', () => {
    const circuit = car(contact('late', 'x', 'y'), resistor('s', 'y', 'n', 1e6));
    const run = new NamedRun(circuit, [
      step({ at: 0 }, { close: ['pre'] }),
      step({ at: 3 }, {}),
      step(when(0.9), { close: ['late'] }),
    ]);
    expect(run.events.map(({ time }) => time)).toEqual([0, 3, 3]);
  });

  it('counts the size of the voltage: a reversed link fires too', () => {
    const run = new NamedRun({ ...car(), link: ['n', 'x'] }, [
      step({ at: 0 }, { close: ['pre'] }),
      step(when(0.5), { open: ['pre'] }),
    ]);
    expect(run.events[1]!.time).toBeCloseTo(Math.LN2, 13);
  });

  it('falling, fires at the ratio on the way down, and at once where already below', () => {
    const circuit = car(resistor('bleed', 'x', 'n', 1000));
    const fall = [
      step({ at: 0 }, { close: ['pre'] }),
      step({ at: 20 }, { open: ['pre'] }),
      step(when(0.1, true), { close: ['pre'] }),
    ];
    const run = new NamedRun(circuit, fall);
    expect(run.events[2]!.time).toBeCloseTo(20 + Math.log(5), 8);
    const soon = new NamedRun(circuit, [step(when(0.1, true), { close: ['pre'] })]);
    expect(soon.events[0]!.time).toBe(0);
  });

  it('never fires where the limit lies exactly on the ratio: that step and all after it are skipped, and an event says so', () => {
    // 1 kΩ into 1 kΩ: the limit is 50 V.
    const circuit = car(resistor('bleed', 'x', 'n', 1000));
    const run = new NamedRun(circuit, [
      step({ at: 0 }, { close: ['pre'] }),
      step(when(0.5), { open: ['pre'] }),
      step({ after: 1 }, { open: ['pre'] }),
    ]);
    expect(run.events.map(({ step: index, skipped }) => [index, skipped])).toEqual([
      [0, undefined],
      [1, true],
    ]);
    expect(run.voltage('x', 'n', 1e6)).toBeCloseTo(50, 11);
    const reached = new NamedRun(circuit, [
      step({ at: 0 }, { close: ['pre'] }),
      step(when(0.5 * (1 - 1e-9)), { open: ['pre'] }),
    ]);
    expect(reached.events[1]!.skipped).toBeUndefined();
  });

  it('is armed once the step before has run, not earlier', () => {
    // The link is above the ratio from 0.7 s to 2 s; the `when` is only armed at 3 s and fires on the second rise.
    const circuit = car(contact('bleed', 'x', 'y'), resistor('s', 'y', 'n', 1), contact('mark', 'x', 'z'));
    const run = new NamedRun(circuit, [
      step({ at: 0 }, { close: ['pre'] }),
      step({ at: 2 }, { close: ['bleed'] }),
      step({ at: 3 }, { open: ['bleed'] }),
      step(when(0.5), { close: ['mark'] }),
    ]);
    expect(run.events[3]!.time).toBeGreaterThan(3.6);
    expect(run.events[3]!.time).toBeCloseTo(3 + Math.log(99.9000999 / 50), 3);
  });

  it('is skipped once, however many contacts still return after it', () => {
    const circuit = car(contact('k', 'p', 'y', { releaseTime: 0.2 }), resistor('s', 'y', 'n', 1));
    const run = new NamedRun(
      circuit,
      [step({ at: 0 }, { close: ['k'] }), step({ at: 1 }, { release: true }), step(when(9), { close: ['pre'] })],
      { until: 1.2 },
    );
    expect(run.events.filter(({ skipped }) => skipped)).toHaveLength(1);
    expect(run.events.map(({ opened }) => opened)).toContainEqual(['k']);
  });
});

describe('elements taken out', () => {
  it('stay out, carry nothing, and are not moved', () => {
    const compiled = compileCircuit(divider());
    const starts = startModes(compiled, { absent: new Set(['k']) });
    const run = new NamedRun(divider(), [step({ at: 0 }, { close: ['k'] })], { compiled, starts });
    expect(run.current('k', 1)).toBe(0);
    expect(run.events[0]!.closed).toEqual([]);
  });
});
