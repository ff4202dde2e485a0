import { describe, expect, it } from 'vitest';
import { CircuitFault } from '../../src/circuit/fault.js';
import { decades, pick, random } from './random.js';
import { randomCircuit } from './random-circuit.js';
import { accumulator, capacitor, circuitOf, contact, exact, load, machine, NamedRun, resistor, step } from './net.js';

const charge = (ohms: number, ...more: Parameters<typeof circuitOf>[0]) =>
  circuitOf(
    [accumulator('a', 'p', 'n', 400), resistor('r', 'p', 'x', ohms), capacitor('c', 'x', 'n', 1e-3), ...more],
    ['x', 'n'],
  );
const discharge = (volts: number, ...more: Parameters<typeof circuitOf>[0]) =>
  circuitOf([capacitor('c', 'x', 'n', 1e-3, { initialVoltage: volts }), ...more], ['x', 'n']);
const link = (run: NamedRun, time: number) => Number(run.voltage('x', 'n', time));

describe('a current load', () => {
  it('draws its current above 1 V and as a resistance below, never driving its node negative', () => {
    // −dv/dt = 0.5/1e-3: from 11 V down 500 V/s to 1 V at 0.02 s, then with 2 ms time constant.
    const run = new NamedRun(discharge(11, load('l', 'x', 'n', { current: exact(0.5) })), []);
    expect(link(run, 0.01)).toBeCloseTo(6, 12);
    expect(run.events.map(({ time, changed }) => [Number(time.toFixed(12)), changed])).toEqual([[0.02, ['l']]]);
    expect(link(run, 0.022)).toBeCloseTo(Math.exp(-1), 11);
    expect(run.current('l', 0.022)).toBeCloseTo(0.5 * Math.exp(-1), 11);
    expect(link(run, 10)).toBeGreaterThanOrEqual(0);
  });

  it('draws nothing from a node that stands negative', () => {
    const run = new NamedRun(discharge(-5, load('l', 'x', 'n', { current: exact(0.5) })), []);
    expect(link(run, 100)).toBe(-5);
    expect(run.current('l', 1)).toBe(0);
  });

  it('takes up as its node rises through 0 and 1 V', () => {
    const run = new NamedRun(
      circuitOf([
        accumulator('a', 'p', 'n', 400),
        resistor('r', 'p', 'x', 100),
        capacitor('c', 'x', 'n', 1e-3, { initialVoltage: -2 }),
        load('l', 'x', 'n', { current: exact(0.5) }),
      ]),
      [],
    );
    expect(run.events.map(({ changed }) => changed)).toEqual([['l'], ['l']]);
    const [zero, one] = run.events;
    expect(link(run, zero!.time)).toBeCloseTo(0, 9);
    expect(link(run, one!.time)).toBeCloseTo(1, 9);
    expect(link(run, 1e3)).toBeCloseTo(350, 9);
  });

  it('stalls a rise where it takes all that comes: the equilibrium is on its slope', () => {
    // 400 V behind 100 kΩ gives 4 mA; a load of 1 A leaves 400/(1 + 100 000) V.
    const run = new NamedRun(charge(100_000, load('l', 'x', 'n', { current: exact(1) })), [], {
      openCircuitVoltage: 400,
    });
    expect(link(run, 1e6)).toBeCloseTo(400 / 100_001, 12);
  });

  it('finds its state where no capacitor holds the voltage', () => {
    const bare = (amps: number) =>
      circuitOf([
        accumulator('a', 'p', 'n', 400),
        resistor('r', 'p', 'x', 1000),
        load('l', 'x', 'n', { current: exact(amps) }),
      ]);
    expect(link(new NamedRun(bare(0.1), []), 1)).toBeCloseTo(300, 10);
    expect(link(new NamedRun(bare(1), []), 1)).toBeCloseTo(400 / 1001, 12);
  });
});

describe('a load that starts above and stops below', () => {
  const loadOf = (startsAbove: number, stopsBelow: number, ohms: number) =>
    load('l', 'x', 'n', { resistance: exact(ohms), startsAbove, stopsBelow });

  it('wakes once as the rise passes its start, and draws from then on', () => {
    const run = new NamedRun(charge(100, loadOf(300, 250, 900)), []);
    expect(run.events.map(({ changed }) => changed)).toEqual([['l']]);
    expect(run.events[0]!.time).toBeCloseTo(0.1 * Math.log(4), 12);
    expect(link(run, 100)).toBeCloseTo(360, 10);
  });

  it('falls asleep below its stop and does not wake between the two', () => {
    const circuit = charge(100, loadOf(300, 250, 900), contact('k', 'x', 'y'), resistor('s', 'y', 'n', 200));
    // With k closed the link settles at 400·(163.6/263.6) = 248 V: asleep it would be 267 V, between the two.
    const run = new NamedRun(circuit, [step({ at: 5 }, { close: ['k'] })]);
    expect(run.events.map(({ changed, closed }) => [...changed, ...closed])).toEqual([['l'], ['k'], ['l']]);
    expect(link(run, 1e3)).toBeCloseTo((400 * 200) / 300, 9);
  });

  it('with stop and start at one voltage, switches once where it can be sustained', () => {
    const run = new NamedRun(charge(100, loadOf(300, 300, 900)), []);
    expect(run.events).toHaveLength(1);
    expect(link(run, 100)).toBeCloseTo(360, 10);
  });

  it('with stop and start at one voltage, is refused where it would chatter, at once and by name of the fault', () => {
    const before = performance.now();
    let fault: unknown;
    try {
      new NamedRun(charge(1000, loadOf(300, 300, 1000)), []);
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(CircuitFault);
    const [first, ...more] = (fault as CircuitFault).faults;
    expect(more).toEqual([]);
    expect(first).toMatchObject({
      code: 'too-many-changes',
      pointer: '#/circuit/l',
    });
    expect(first?.detail).toContain('The load l would start and stop without end');
    expect(performance.now() - before).toBeLessThan(2000);
  });

  it('swings for ever, too, where a step waits for what it would get to asleep', () => {
    const waits = [step({ when: { linkRatio: 0.9, falling: false } }, { close: [] })];
    const run = new NamedRun(charge(1000, loadOf(300, 250, 1000)), waits, { openCircuitVoltage: 400 });
    expect(run.timeline.repeatsFrom).toBeDefined();
    expect(run.events.at(-1)?.skipped).toBe(true);
  });

  it('swings between the two for ever where its supply cannot hold it, and the run says from where it repeats', () => {
    // Asleep 400 V behind 1 kΩ, awake 200 V behind 500 Ω, both on 1 mF.
    const run = new NamedRun(charge(1000, loadOf(300, 250, 1000)), []);
    const down = 0.5 * Math.log(100 / 50);
    const up = Math.log(150 / 100);
    const times = run.events.map(({ time }) => time);
    expect(times[0]).toBeCloseTo(Math.log(4), 12);
    expect(times[1]! - times[0]!).toBeCloseTo(down, 12);
    expect(times[2]! - times[1]!).toBeCloseTo(up, 12);
    expect(run.timeline.repeatsFrom).toBeDefined();
    const bounded = new NamedRun(charge(1000, loadOf(300, 250, 1000)), [], { until: 60 });
    const late = bounded.timeline.segments
      .filter(({ start }) => start > 2)
      .map(({ solution }) => solution.capacitorVoltage(0).at(0));
    for (const volts of late) expect(Math.min(Math.abs(volts - 250), Math.abs(volts - 300))).toBeLessThan(1e-9);
    expect(late.length).toBeGreaterThan(100);
  });

  it('is refused where no capacitor holds the voltage and neither state is consistent', () => {
    const circuit = circuitOf([accumulator('a', 'p', 'n', 400), resistor('r', 'p', 'x', 1000), loadOf(300, 250, 1000)]);
    expect(() => new NamedRun(circuit, [])).toThrow(CircuitFault);
  });

  it('is awake from the start where it starts above', () => {
    const run = new NamedRun(discharge(350, loadOf(300, 250, 1000)), []);
    expect(run.current('l', 0)).toBeCloseTo(0.35, 13);
    expect(run.events[0]!.time).toBeCloseTo(Math.log(350 / 250), 12);
    expect(link(run, 100)).toBeCloseTo(250, 9);
  });

  it('two of them on one node do not disturb each other', () => {
    const circuit = charge(
      100,
      loadOf(300, 100, 2000),
      load('m', 'x', 'n', { current: exact(0.2), startsAbove: 200, stopsBelow: 50 }),
    );
    const run = new NamedRun(circuit, []);
    expect(run.events.map(({ changed }) => changed)).toEqual([['m'], ['l']]);
    // (400 − v)/100 = 0.2 + v/2000.
    expect(link(run, 100)).toBeCloseTo((4 - 0.2) / (0.01 + 1 / 2000), 9);
  });

  it('two of them that wake at one level wake together, whichever comes first by name', () => {
    const pair = (id: string) => load(id, 'x', 'n', { current: exact(0.15), startsAbove: 200, stopsBelow: 50 });
    // Either alone could be fed: (400 − 200)/1000 = 0.2 A. Together they take 0.3 A and pull the link down to 100 V.
    const run = new NamedRun(charge(1000, pair('l'), pair('m')), []);
    expect(run.events.map(({ changed }) => changed)).toEqual([['l', 'm']]);
    expect(run.events[0]!.time).toBeCloseTo(Math.LN2, 11);
    expect(link(run, 100)).toBeCloseTo(100, 9);
  });

  it('two of them side by side sag through 1 V together and stay resistances', () => {
    const pair = (id: string, amperes: number) => load(id, 'x', 'n', { current: exact(amperes) });
    const run = new NamedRun(discharge(11, pair('l', 0.2), pair('m', 0.3)), []);
    expect(run.events.map(({ changed }) => changed)).toEqual([['l', 'm']]);
    expect(link(run, 0.022)).toBeCloseTo(Math.exp(-1), 11);
  });

  // Networks in which a load's node begins at 0 V but for what rounding leaves of several divided voltages.
  it.each([7, 17, 33, 116, 121, 198])(
    'begins at 0 V but for rounding, and does not chatter about it (network %i)',
    (seed) => {
      const next = random(9000 + seed);
      const count = 1 + Math.floor(next() * 5);
      const elements = randomCircuit(
        next,
        count,
        { ohms: [-1, 3], farads: [-5, -3] },
        { source: true, general: next() < 0.3 },
      );
      const loads = Array.from({ length: 1 + Math.floor(next() * 3) }, (_, k) => {
        const node = `n${String(1 + Math.floor(next() * count)).padStart(2, '0')}`;
        const power = decades(next, -1, 4);
        const startsAbove = pick(next, [0, 0, 50, 200]);
        const stopsBelow = next() < 0.5 ? 0 : 0.8 * startsAbove;
        const drawn =
          pick(next, ['power', 'power', 'current']) === 'power'
            ? { power: exact(power) }
            : { current: exact(power / 300) };
        return load(`l${String(k)}`, node, 'n00', { ...drawn, startsAbove, stopsBelow });
      });
      const run = new NamedRun(circuitOf([...elements, ...loads]), []);
      // One that swings for ever is computed for one round of it only.
      const { segments, repeatsFrom } = run.timeline;
      const time = repeatsFrom === undefined ? 10 : segments.at(-1)!.start;
      for (const { id, nodes, power, current } of loads) {
        const volts = Number(run.voltage(nodes[0], nodes[1], time));
        const amperes = Number(run.current(id, time));
        // Awake or asleep, it obeys its law: nothing, or what it draws at that voltage.
        const wanted =
          power === undefined
            ? current!.nominal * Math.min(1, volts)
            : volts >= 1
              ? power.nominal / volts
              : power.nominal * volts;
        expect(Math.min(Math.abs(amperes), Math.abs(amperes / Math.max(wanted, 1e-12) - 1))).toBeLessThan(1e-6);
      }
    },
  );

  it('a jump that another load makes is seen: no capacitor at the node', () => {
    // l wakes (its own capacitor has risen), pulls x down at once, and m, awake at x, falls below its stop in the same instant.
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 400),
      resistor('r', 'p', 'x', 100),
      resistor('f', 'p', 'y', 1000),
      capacitor('c', 'y', 'n', 1e-3),
      load('m', 'x', 'n', { resistance: exact(900), startsAbove: 300, stopsBelow: 250 }),
      contact('k', 'x', 'z'),
      resistor('s', 'z', 'n', 100),
    ]);
    const run = new NamedRun(circuit, [step({ at: 1 }, { close: ['k'] })]);
    expect(run.current('m', 0.5)).toBeCloseTo(0.4, 13);
    expect(run.current('m', 1)).toBe(0);
    expect(link(run, 1)).toBeCloseTo(200, 11);
  });
});

describe('phases', () => {
  it('precharge until every isolation relay is closed, drive then, shutdown from the release on', () => {
    const only = (id: string, phase: 'precharge' | 'drive' | 'shutdown') =>
      load(id, 'x', 'n', { resistance: exact(1000), activeIn: [phase] });
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100, 1),
      contact('air-pos', 'p', 'x', { role: 'isolation-relay' }),
      contact('pre', 'p', 'x', { role: 'precharge-relay' }),
      contact('air-neg', 'n', 'm', { role: 'isolation-relay' }),
      resistor('r', 'm', 'x', 1e6),
      capacitor('c', 'x', 'n', 1e-3),
      only('l1', 'precharge'),
      only('l2', 'drive'),
      only('l3', 'shutdown'),
    ]);
    const run = new NamedRun(circuit, [
      step({ at: 1 }, { close: ['pre', 'air-neg'] }),
      step({ at: 2 }, { close: ['air-pos'] }),
      step({ at: 3 }, { release: true }),
    ]);
    const drawing = (time: number) => ['l1', 'l2', 'l3'].filter((id) => Math.abs(Number(run.current(id, time))) > 0);
    expect([drawing(1.5), drawing(2.5), drawing(3.01)]).toEqual([['l1'], ['l2'], ['l3']]);
  });

  it('without loads none draws, and meters do', () => {
    const run = new NamedRun(
      discharge(100, load('l', 'x', 'n', { current: exact(1) }), resistor('bleed', 'x', 'n', 1000)),
      [],
      { withoutLoads: true },
    );
    expect(run.current('l', 0.1)).toBe(0);
    expect(link(run, 1)).toBeCloseTo(100 * Math.exp(-1), 12);
  });
});

describe('a machine with its diode', () => {
  const bleed = resistor('bleed', 'x', 'n', 1000);
  const turning = (emf: number, more: Parameters<typeof machine>[4] = {}) =>
    machine('m', 'x', 'n', emf, { resistance: exact(1), ...more });
  const release = [step({ at: 0 }, { release: true })];

  it('does nothing before the release', () => {
    const run = new NamedRun(discharge(100, turning(300)), [step({ at: 1 }, { release: true })]);
    expect([link(run, 0.999), run.current('m', 0.999)]).toEqual([100, 0]);
    expect(link(run, 2)).toBeCloseTo(300, 9);
  });

  it('blocks while the link stands higher, takes over where it would fall below', () => {
    const run = new NamedRun(discharge(400, bleed, turning(150)), release);
    expect(run.current('m', 0.5)).toBe(0);
    const taken = run.events.find(({ changed }) => changed.includes('m'))!;
    expect(taken.time).toBeCloseTo(Math.log(400 / 150), 12);
    expect(link(run, 100)).toBeCloseTo((150 * 1000) / 1001, 9);
    expect(run.current('m', 100)).toBeCloseTo(-150 / 1001, 9);
  });

  it('takes over at once where the link stands exactly at its voltage', () => {
    for (const volts of [400, 399.9999999999]) {
      const run = new NamedRun(discharge(volts, bleed, turning(400)), release);
      expect(link(run, 10)).toBeCloseTo((400 * 1000) / 1001, 9);
    }
  });

  it('lets go as it coasts down faster than the link falls, by the closed form', () => {
    // dv/dt = (e − v)/(R·C) − v/(R_b·C) with e = 300·e^−t/0.2 until v = e; then v falls by itself.
    const run = new NamedRun(discharge(100, bleed, turning(300, { decay: 0.2 })), release);
    const [rate, fast] = [5, 1 / (1 * 1e-3) + 1 / (1000 * 1e-3)];
    const driven = (t: number) =>
      100 * Math.exp(-fast * t) + ((300 / 1e-3) * (Math.exp(-rate * t) - Math.exp(-fast * t))) / (fast - rate);
    expect(link(run, 2e-3)).toBeCloseTo(driven(2e-3), 9);
    const let_go = run.events.find(({ time, changed }) => time > 0 && changed.includes('m'))!;
    expect(driven(let_go.time)).toBeCloseTo(300 * Math.exp(-rate * let_go.time), 9);
    const left = driven(let_go.time);
    expect(link(run, let_go.time + 1)).toBeCloseTo(left * Math.exp(-1), 9);
    expect(run.events).toHaveLength(2);
  });

  it('follows its own voltage down where that falls slower than the link would', () => {
    const run = new NamedRun(discharge(400, bleed, turning(200, { decay: 50 })), release);
    // Far into it: v = e·g/(g + 1/R_b − C/50) for the fading drive's own response.
    const share = 1 / (1 + 1 / 1000 - 1e-3 / 50);
    for (const t of [5, 60]) expect(link(run, t) / (200 * share * Math.exp(-t / 50))).toBeCloseTo(1, 9);
  });

  it('without capacitor or decay simply feeds the resistance', () => {
    const run = new NamedRun(circuitOf([resistor('r', 'x', 'n', 99), turning(50)]), release);
    expect(link(run, 1)).toBeCloseTo(49.5, 12);
  });
});
