import { describe, expect, it } from 'vitest';
import { readCircuit } from '../../src/circuit/index.js';
import { transients } from '../../src/verify/transients.js';
import { accumulator, capacitor, circuitOf, contact, load, resistor, step, within } from '../transient/net.js';

// 600 V behind 1 kΩ onto 500 µF with 10 kΩ beside it: by the divider the link ends at 10/11 of 600 V, 90.9 %.
const circuit = circuitOf(
  [
    { ...accumulator('pack', 'p', 'n', 600), zone: 'container' },
    contact('relay', 'p', 'q'),
    contact('last', 'p', 'x', { resistance: within(0.01, 0) }),
    resistor('pre', 'q', 'x', 1000),
    capacitor('link', 'x', 'n', 500e-6),
    resistor('bleed', 'x', 'n', 10_000),
  ],
  ['x', 'n'],
);
const run = (linkRatio: number, times: readonly number[]) =>
  transients({
    circuit,
    sequence: [
      step({ at: 0.25 }, { close: ['relay'] }),
      step({ when: { linkRatio, falling: false } }, { close: ['last'] }),
      step({ after: 1 }, { open: ['relay'] }),
    ],
    probes: [{ id: 'link', quantity: 'voltage', nodes: ['x', 'n'] }],
    instants: { times },
  });

describe('the voltage that the link ends at', () => {
  const { elements } = circuit;
  const finalOf = (more: Parameters<typeof load>[3]) =>
    transients({
      circuit: circuitOf([...elements, load('fan', 'x', 'n', more)], ['x', 'n']),
      sequence: [step({ at: 0 }, { close: ['relay'] })],
      probes: [],
      instants: { times: [0, 1] },
    }).figures['finalLinkVoltage'];

  it('is the divider’s where it settles', () => {
    // Source: the divider, 10 kΩ ∥ 10 kΩ behind 1 kΩ.
    expect(finalOf({ resistance: within(10_000, 0) })?.nominal).toBeCloseTo(500, 9);
  });

  it('is none where a load wakes and falls asleep for ever', () => {
    // 1 kΩ beside 10 kΩ would leave 285.7 V, below where it falls asleep; without it the link goes to 545 V and wakes it.
    const swinging = { resistance: within(1000, 0), startsAbove: 400, stopsBelow: 300 };
    expect(finalOf(swinging)).toEqual({ unit: 'V', nominal: null, reason: 'without-end' });
  });
});

describe('the record of a load that wakes and falls asleep for ever', () => {
  // Asleep the link charges towards 545.5 V with 454.5 ms (10 kΩ ∥ 1 kΩ, 500 µF); awake towards 285.7 V with 238.1 ms.
  const swinging = { resistance: within(1000, 0), startsAbove: 400, stopsBelow: 300 };
  const up = 0.5e-3 * (1e4 / 11);
  const down = 0.5e-3 * (1e4 / 21);
  const asleep = up * Math.log((6000 / 11 - 300) / (6000 / 11 - 400));
  const awake = down * Math.log((400 - 6000 / 21) / (300 - 6000 / 21));
  const first = up * Math.log(6000 / 11 / (6000 / 11 - 400));

  it('goes on, round after round, to its own end', () => {
    const round = asleep + awake;
    const times = [0, 1, 5, 20].flatMap((n) => [first + n * round + awake / 2, first + n * round + awake + asleep / 2]);
    const { signals, figures } = transients({
      circuit: circuitOf([...circuit.elements, load('fan', 'x', 'n', swinging)], ['x', 'n']),
      sequence: [step({ at: 0 }, { close: ['relay'] })],
      probes: [{ id: 'link', quantity: 'voltage', nodes: ['x', 'n'] }],
      instants: { times },
    });
    const [falling, rising, ...later] = signals[0]!.values;
    expect(falling).toBeCloseTo(6000 / 21 + (400 - 6000 / 21) * Math.exp(-awake / 2 / down), 6);
    expect(rising).toBeCloseTo(6000 / 11 - (6000 / 11 - 300) * Math.exp(-asleep / 2 / up), 6);
    for (const [k, volts] of later.entries()) expect(volts).toBeCloseTo((k % 2 === 0 ? falling : rising)!, 6);
    expect(figures['resistorEnergy']).toMatchObject({ nominal: null, reason: 'without-end' });
  });
});

describe('a load with nothing stated but what its schema asks for', () => {
  /** 400 V behind 1 kΩ and a load across 100 µF; from 1 s on 10 Ω pull the link down. */
  const currentOf = (fields: object, times: readonly number[]) => {
    const link = { nodes: ['x', 'n'], zone: 'vehicle' };
    const elements = [
      { id: 'pack', kind: 'accumulator', nodes: ['p', 'n'], zone: 'container', voltage: 400 },
      { id: 'r', kind: 'resistor', nodes: ['p', 'x'], zone: 'vehicle', resistance: 1000 },
      { id: 'c', kind: 'capacitor', ...link, capacitance: 1e-4 },
      { id: 'fan', kind: 'load', ...link, ...fields },
      { id: 'k', kind: 'contact', nodes: ['x', 'y'], zone: 'vehicle', rest: 'open' },
      { id: 's', kind: 'resistor', nodes: ['y', 'n'], zone: 'vehicle', resistance: 10 },
    ];
    const reading = readCircuit({ elements }, '#/circuit');
    if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
    const { signals } = transients({
      circuit: reading.circuit,
      sequence: [step({ at: 1 }, { close: ['k'] })],
      probes: [
        { id: 'i', quantity: 'current', element: 'fan' },
        { id: 'v', quantity: 'voltage', nodes: ['x', 'n'] },
      ],
      instants: { times },
    });
    return signals.map(({ values }) => values);
  };

  it('stays awake without a `stopsBelow`, however low the voltage', () => {
    const [amps, volts] = currentOf({ resistance: 9000, startsAbove: 300 }, [0.05, 0.9, 5]);
    expect(amps?.[0]).toBe(0);
    // The divider at the end: 10 Ω ∥ 9 kΩ behind 1 kΩ, about 3.96 V; Ohm's law at both instants.
    expect(volts?.[2]).toBeCloseTo((400 * (90_000 / 9010)) / (1000 + 90_000 / 9010), 9);
    expect([amps?.[1], amps?.[2]].map((one, k) => one! - volts![k + 1]! / 9000)).toEqual([
      expect.closeTo(0, 12),
      expect.closeTo(0, 12),
    ]);
  });

  it('of a constant power is a resistance of (1 V)² / power below 1 V', () => {
    // 500 W are 2 mΩ there: 400 V behind 1 kΩ never lift the link above 0.8 mV.
    const [amps, volts] = currentOf({ power: 500 }, [1e-4, 0.5]);
    expect(volts?.[1]).toBeCloseTo((400 * 0.002) / 1000.002, 12);
    expect(amps?.[1]).toBeCloseTo(500 * volts![1]!, 9);
  });
});

describe('a step whose condition is never met', () => {
  it('is told at the end of the record, with the values there', () => {
    const { events, signals } = run(0.95, [0, 1, 4]);
    expect(events.map(({ time, step: index }) => [time, index])).toEqual([
      [0.25, 0],
      [4, 1],
    ]);
    const value = signals[0]?.values[2];
    // Source: the divider, and 1 − e^(−t/τ) with τ = 500 µF·(1 kΩ ∥ 10 kΩ) after 3.75 s.
    expect(value).toBeCloseTo((6000 / 11) * -Math.expm1(-3.75 / (500e-6 * (1e7 / 11_000))), 9);
    expect(events[1]).toMatchObject({ before: [{ id: 'link', value }], after: [{ id: 'link', value }] });
    expect(events[1]?.note).toBe(
      'The condition of step 1 is never met, not even after the end of this record, so it and the 1 after it did not run.',
    );
  });

  it('is not told of one whose condition is met after the record', () => {
    const { events } = run(0.9, [0, 0.5]);
    expect(events.map(({ time, step: index }) => [time, index])).toEqual([[0.25, 0]]);
  });
});
