import type { Step } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { about, bare, exact, soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts, student2020 } from '../sound-facts.js';

const step = (parts: Partial<Step>): Step => ({ close: [], open: [], release: false, ...parts });
const when = (linkRatio: number) => ({ linkRatio, falling: false });
const begin = step({ at: 0, close: ['air-neg', 'k-pre'], open: ['k-dis'] });

/**
 * Exact parts, so that each figure is one that a hand calculation gives: 1 kΩ into 500 µF with 47 kΩ beside it, the accumulator's
 * own resistance and the capacitor's left out. It settles at 47/48 = 97.917 % with a time constant of 47/48·0.5 s = 0.48958 s.
 */
const exactly = {
  acc: { resistance: undefined },
  'r-pre': { resistance: exact(1000) },
  'c-link': { capacitance: exact(500e-6), esr: undefined },
  meter: { resistance: exact(47_000) },
};
const order = (steps: readonly Step[], changes: object = exactly, precharge: object = {}) => {
  const { control } = soundCircuit({}, { precharge });
  const circuit = soundCircuit({ ...changes }, { control: { ...control, sequence: steps } });
  return createFacts(circuit, student2020.conditions);
};
const timer = (delay: number) =>
  createFacts(
    soundCircuit(exactly, { precharge: { method: 'timer', delay, threshold: undefined } }),
    collegiate2024.conditions,
  );

export const rows: RuleCases = {
  cases: [
    { name: 'no order stated', facts: soundFacts(), status: 'met', message: 'default' },
    {
      name: 'the last relay at 95 %',
      facts: order([begin, step({ when: when(0.95), close: ['air-pos'] }), step({ after: 0.1, open: ['k-pre'] })]),
      status: 'met',
      message: 'met',
      says: ['stated', '95 %'],
    },
    {
      name: 'a pause after 96 %, the pre-charge relay still closed',
      facts: order([begin, step({ when: when(0.96) }), step({ after: 0.5, close: ['air-pos'] })]),
      status: 'met',
      message: 'met',
      // 97.917 − 1.917·e^(−0.5/0.48958)
      says: ['97.23 %'],
    },
    {
      name: 'the last relay at 90 %',
      facts: order([begin, step({ when: when(0.9), close: ['air-pos'] })]),
      status: 'violated',
      message: 'early',
      says: ['90 %', '95 %'],
      elements: ['air-pos'],
      remedySays: ['95 %'],
    },
    {
      name: 'the last relay at 90 %, which is what is set',
      facts: order([begin, step({ when: when(0.9), close: ['air-pos'] })], exactly, { threshold: 0.9 }),
      status: 'violated',
      message: 'early',
      causedBy: ['precharge-setting'],
    },
    {
      name: 'the last relay first',
      facts: order([step({ at: 0, close: ['air-pos'] }), step({ after: 1, close: ['air-neg', 'k-pre'] })]),
      status: 'violated',
      message: 'unprepared',
      says: ['0 %'],
    },
    {
      name: 'all relays at once',
      facts: order([step({ at: 0, close: ['air-pos', 'air-neg', 'k-pre'] })]),
      status: 'violated',
      message: 'unprepared',
      evidence: { actual: 0, limit: 0.95, margin: -1, unit: 'ratio' },
    },
    {
      // From 97 % the meter alone empties the link: 23.5 s, so 97 %·e^(−0.2/23.5) = 96.18 %.
      name: 'the pre-charge relay opened 0.2 s before, the link still at 96.18 %',
      facts: order([begin, step({ when: when(0.97), open: ['k-pre'] }), step({ after: 0.2, close: ['air-pos'] })]),
      status: 'met',
      message: 'met',
      says: ['96.18 %'],
    },
    {
      // 97 %·e^(−1/23.5) = 92.96 %
      name: 'the pre-charge relay opened 1 s before, the link sagging to 92.96 %',
      facts: order([begin, step({ when: when(0.97), open: ['k-pre'] }), step({ after: 1, close: ['air-pos'] })]),
      status: 'violated',
      message: 'sag',
      says: ['from 97 % to 92.96 %', '95 %'],
      causedBy: ['precharge-reaches-threshold'],
      elements: ['air-pos'],
    },
    {
      // 47 kΩ as a load in place of the meter: the same time constant.
      name: 'the same with a load that draws meanwhile, which is named',
      facts: order([begin, step({ when: when(0.97), open: ['k-pre'] }), step({ after: 1, close: ['air-pos'] })], {
        ...exactly,
        meter: null,
        heater: {
          kind: 'load',
          nodes: ['lp', 'tn'],
          resistance: exact(47_000),
          startsAbove: 0,
          stopsBelow: 0,
          activeIn: ['precharge', 'drive'],
        },
      }),
      status: 'violated',
      message: 'sag',
      says: ['from 97 % to 92.96 % at worst by then, with heater drawing from it'],
      causedBy: ['precharge-reaches-threshold'],
      elements: ['air-pos', 'heater'],
    },
    {
      // 97 %·e^(−1/23.5) = 92.96 %; closed again it rises: 97.917 − 4.957·e^(−1/0.48958) = 97.27 %.
      name: 'a link that has sagged to 92.96 % and recovered before the last relay closes',
      facts: order([
        begin,
        step({ when: when(0.97), open: ['k-pre'] }),
        step({ after: 1, close: ['k-pre'] }),
        step({ after: 1, close: ['air-pos'] }),
      ]),
      status: 'violated',
      message: 'dips',
      says: ['reaches 95 %', '92.96 %'],
      remedySays: ['Keep the pre-charge relay closed'],
      elements: ['air-pos'],
    },
    {
      // Measured again, and still it has sagged first.
      name: 'the same with the level measured a second time',
      facts: order([
        begin,
        step({ when: when(0.97), open: ['k-pre'] }),
        step({ after: 1, close: ['k-pre'] }),
        step({ when: when(0.96), close: ['air-pos'] }),
      ]),
      status: 'violated',
      message: 'dips',
      says: ['92.96 %'],
    },
    {
      // 97 %·e^(−0.4/23.5) = 95.36 %
      name: 'a link that has sagged to 95.36 % only',
      facts: order([
        begin,
        step({ when: when(0.97), open: ['k-pre'] }),
        step({ after: 0.4, close: ['k-pre'] }),
        step({ after: 1, close: ['air-pos'] }),
      ]),
      status: 'met',
      message: 'met',
    },
    {
      // 400 µF are assumed possible: 97 %·e^(−0.47/18.8) = 94.60 %; at nominal 97 %·e^(−0.47/23.5) = 95.08 %.
      name: 'a sag that an assumed tolerance decides about',
      facts: order(
        [
          begin,
          step({ when: when(0.97), open: ['k-pre'] }),
          step({ after: 0.47, close: ['k-pre'] }),
          step({ after: 1, close: ['air-pos'] }),
        ],
        { ...exactly, 'c-link': { capacitance: bare(500e-6), esr: undefined } },
      ),
      status: 'undetermined',
      message: 'dipsUndetermined',
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      name: 'neither an order nor a method stated',
      facts: soundFacts({ circuit: soundCircuit({}, { precharge: { method: undefined } }) }),
      status: 'undetermined',
      message: 'unknown',
      missing: ['#/circuit/control/precharge/method'],
      causedBy: ['precharge-compares-voltages'],
    },
    {
      name: 'a timer of no stated delay',
      facts: soundFacts({ circuit: soundCircuit({}, { precharge: { method: 'timer' } }) }),
      ruleset: collegiate2024,
      status: 'undetermined',
      message: 'unknown',
      missing: ['#/circuit/control/precharge/delay'],
      causedBy: ['precharge-compares-voltages'],
    },
    {
      // 97.917 %·(1 − e^(−4/0.48958)) = 97.89 %
      name: 'the last relay after 4 s',
      facts: order([begin, step({ after: 4, close: ['air-pos'] })]),
      status: 'met',
      message: 'timed',
      says: ['4 s', '97.89 %'],
    },
    {
      // 97.917 %·(1 − e^(−1/0.48958)) = 85.22 %
      name: 'the last relay after 1 s',
      facts: order([begin, step({ at: 1, close: ['air-pos'] })]),
      status: 'violated',
      message: 'timed',
      says: ['1 s', '85.22 %', '95 %'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'the last relay after 1 s, as its timer is set',
      facts: order([begin, step({ at: 1, close: ['air-pos'] })], exactly, { method: 'timer', delay: 1 }),
      status: 'violated',
      message: 'timed',
      causedBy: ['precharge-compares-voltages', 'precharge-reaches-threshold'],
    },
    {
      name: 'the last relay after 1 s, its timer set to 3 s',
      facts: order([begin, step({ at: 1, close: ['air-pos'] })], exactly, { method: 'timer', delay: 3 }),
      status: 'violated',
      message: 'timed',
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      // A larger capacitor at the edge of its range: 550 µF reach 95 % after 1.89 s, 500 µF after 1.72 s.
      name: 'a time that stated tolerances decide about',
      facts: order([begin, step({ after: 1.8, close: ['air-pos'] })], {
        ...exactly,
        'c-link': { capacitance: about(500e-6, 0.1), esr: undefined },
      }),
      status: 'violated',
      message: 'timed',
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'the last relay after a while, on a rise that never arrives',
      facts: order([begin, step({ after: 60, close: ['air-pos'] })], {
        ...exactly,
        meter: { resistance: exact(15_000) },
      }),
      status: 'violated',
      message: 'timed',
      says: ['93.75 %'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'a time that assumed tolerances decide about',
      facts: order([begin, step({ after: 1.8, close: ['air-pos'] })], {
        ...exactly,
        'c-link': { capacitance: bare(500e-6), esr: undefined },
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      // 97.917 − 17.917·e^(−1/0.48958) = 95.59 %
      name: 'a pause after 80 % that is long enough',
      facts: order([begin, step({ when: when(0.8) }), step({ after: 1, close: ['air-pos'] })]),
      status: 'met',
      message: 'met',
      says: ['95.59 %'],
    },
    {
      name: 'an order that never closes the last relay',
      facts: order([begin]),
      status: 'not-applicable',
      message: 'neverCloses',
      causedBy: ['precharge-reaches-threshold', 'precharge-reaches-setting'],
    },
    {
      name: 'an order that waits for what is never reached',
      facts: order([begin, step({ when: when(0.99), close: ['air-pos'] })]),
      status: 'not-applicable',
      message: 'neverCloses',
      causedBy: ['precharge-reaches-threshold', 'precharge-reaches-setting'],
    },
    {
      name: 'a timer of 4 s, no order stated',
      facts: timer(4),
      ruleset: collegiate2024,
      status: 'met',
      message: 'timed',
      says: ['taken by default', '4 s'],
    },
    {
      name: 'a timer of 1 s, no order stated',
      facts: timer(1),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'timed',
      says: ['85.22 %', '90 %'],
      causedBy: ['precharge-compares-voltages', 'precharge-reaches-threshold'],
    },
    {
      name: 'no bridged relay',
      facts: soundFacts({ topology: { bridgedRelays: [] } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
