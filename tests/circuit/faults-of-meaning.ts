import { at, type FaultCase, fields, oneRelay, sequence, set, step, without } from './fault-case.js';

/** Readable fields that contradict each other or refer to nothing. */
export const faultsOfMeaning: readonly FaultCase[] = [
  {
    what: 'a curve out of order',
    spoil: set('r-dis', {
      resistanceCurve: [
        [25, 1],
        [25, 2],
        [20, 3],
        [30, 0],
      ],
    }),
    faults: [
      [at(7, 'resistanceCurve', '1', '0'), 'unordered-curve'],
      [at(7, 'resistanceCurve', '2', '0'), 'unordered-curve'],
      [at(7, 'resistanceCurve', '3', '1'), 'out-of-bounds'],
    ],
  },
  {
    what: 'a curve that is none',
    spoil: (input) => {
      set('r-dis', { resistanceCurve: null })(input);
      set('r-pre', { resistanceCurve: [[25], 4, ['20 °C', '1 V']] })(input);
    },
    faults: [
      [at(4, 'resistanceCurve', '0'), 'wrong-length'],
      [at(4, 'resistanceCurve', '1'), 'wrong-type'],
      [at(4, 'resistanceCurve', '2', '1'), 'wrong-unit'],
      [at(7, 'resistanceCurve'), 'wrong-type'],
    ],
  },
  {
    what: 'a derating out of order',
    spoil: set('r-dis', { ratings: { fullPowerUpTo: 70, zeroPowerAt: '70 °C' } }),
    faults: [[at(7, 'ratings', 'zeroPowerAt'), 'unordered-derating']],
  },
  {
    what: 'a load that stops above where it starts',
    spoil: set('inverter', { startsAbove: 100, stopsBelow: '0.12 kV' }),
    faults: [[at(8, 'stopsBelow'), 'stops-above-starts']],
  },
  {
    what: 'a load that stops above the zero at which it starts',
    spoil: set('inverter', { stopsBelow: 5 }),
    faults: [[at(8, 'stopsBelow'), 'stops-above-starts']],
  },
  { what: 'two values of a load', spoil: set('inverter', { power: 50 }), faults: [[at(8), 'load-value-count']] },
  { what: 'no value of a load', spoil: without('inverter', 'resistance'), faults: [[at(8), 'load-value-count']] },
  { what: 'an id twice', spoil: set('r-dis', { id: 'r-pre' }), faults: [[at(7, 'id'), 'duplicate-id']] },
  {
    what: 'an id three times',
    spoil: (input) => {
      set('r-dis', { id: 'r-pre' })(input);
      set('dis', { id: 'r-pre' })(input);
    },
    faults: [
      [at(6, 'id'), 'duplicate-id'],
      [at(7, 'id'), 'duplicate-id'],
    ],
  },
  {
    what: 'both ends on one node',
    spoil: set('r-dis', { nodes: ['d', 'd'] }),
    faults: [[at(7, 'nodes'), 'same-nodes']],
  },
  {
    what: 'no accumulator',
    spoil: (input) => void input.elements.shift(),
    faults: [['#/circuit/elements', 'no-accumulator']],
  },
  {
    what: 'a plug that parts with no container',
    spoil: (input) =>
      void input.elements.push({
        id: 'plug',
        kind: 'connector',
        nodes: ['ln', 'x'],
        zone: 'vehicle',
        separates: 'rear',
      }),
    faults: [[at(9, 'separates'), 'unknown-container']],
  },
  {
    what: 'a plug that does not say with which container it parts, none being the default one',
    spoil: (input) => {
      for (const element of input.elements) element['container'] = 'rear';
      input.elements.push({ id: 'plug', kind: 'connector', nodes: ['ln', 'x'], zone: 'vehicle' });
    },
    faults: [[at(9, 'separates'), 'unknown-container']],
  },
  {
    what: 'a link that dangles',
    spoil: fields({ link: ['lp', 'lm'] }),
    faults: [['#/circuit/link/1', 'unknown-node']],
  },
  { what: 'a link on one node', spoil: fields({ link: ['lp', 'lp'] }), faults: [['#/circuit/link', 'same-nodes']] },
  { what: 'a chassis that dangles', spoil: fields({ chassis: 'ch' }), faults: [['#/circuit/chassis', 'unknown-node']] },
  {
    what: 'measuring points that dangle',
    spoil: fields({ measuringPoints: { positive: 'mp', negative: 'mn' } }),
    faults: [
      ['#/circuit/measuringPoints/negative', 'unknown-node'],
      ['#/circuit/measuringPoints/positive', 'unknown-node'],
    ],
  },
  {
    what: 'measuring points on one node',
    spoil: fields({ measuringPoints: { positive: 'lp', negative: 'lp' } }),
    faults: [['#/circuit/measuringPoints', 'same-nodes']],
  },
  {
    what: 'an indicator that watches what is none or no contact, and senses what is none',
    spoil: fields({
      indicator: {
        watches: ['air-poss', 'r-pre', 'pre'],
        senses: [
          ['lp', 'ln'],
          ['lp', 'q'],
        ],
      },
    }),
    faults: [
      ['#/circuit/indicator/senses/1/1', 'unknown-node'],
      ['#/circuit/indicator/watches/0', 'unknown-element'],
      ['#/circuit/indicator/watches/1', 'wrong-kind'],
    ],
  },
  {
    what: 'senses of the container indicator and of the comparison that dangle',
    spoil: fields({
      containerIndicator: { senses: ['q', 'ln'] },
      containerIndicators: [{ senses: ['lp', 'ln'] }, { senses: ['lp', 'q'] }],
      control: { precharge: { accumulatorSense: ['bp', 'q'], linkSense: ['lp', 'q'] } },
    }),
    faults: [
      ['#/circuit/containerIndicator/senses/0', 'unknown-node'],
      ['#/circuit/containerIndicators/1/senses/1', 'unknown-node'],
      ['#/circuit/control/precharge/accumulatorSense/1', 'unknown-node'],
      ['#/circuit/control/precharge/linkSense/1', 'unknown-node'],
    ],
  },
  {
    what: 'a step that moves what is none, or cannot move',
    spoil: sequence({ at: 0, close: ['air-ne', 'air-neg'], open: ['r-pre'] }),
    faults: [
      [step(0, 'close', 0), 'unknown-element'],
      [step(0, 'open', 0), 'wrong-kind'],
    ],
  },
  { what: 'a step without a time', spoil: sequence({ close: ['pre'] }), faults: [[step(0), 'step-time-count']] },
  { what: 'a step with two times', spoil: sequence({ at: 0, after: 0 }), faults: [[step(0), 'step-time-count']] },
  {
    what: 'a contact opened and closed at once',
    spoil: sequence({ at: 0, close: ['pre', 'air-neg'], open: ['pre'] }),
    faults: [[step(0, 'open', 0), 'opened-and-closed']],
  },
  {
    what: 'a step earlier than the one before',
    spoil: sequence({ at: 1 }, { at: '500 ms' }),
    faults: [[step(1, 'at'), 'step-out-of-order']],
  },
  {
    what: 'a step earlier than one that follows a step at a known time',
    spoil: sequence({ at: 1 }, { after: 2 }, { when: { linkRatio: 0.9 } }, { at: 2.9 }),
    faults: [[step(3, 'at'), 'step-out-of-order']],
  },
  {
    what: 'one contact of a relay moved alone',
    spoil: (input) => {
      oneRelay(input);
      sequence({ at: 0, close: ['air-neg', 'pre'] })(input);
    },
    faults: [[step(0, 'close', 1), 'relay-split']],
  },
  {
    what: 'contacts of a relay moved against each other',
    spoil: (input) => {
      oneRelay(input);
      sequence({ at: 0, close: ['pre', 'dis'] })(input);
    },
    faults: [[step(0, 'close', 0), 'relay-split']],
  },
  {
    what: 'more faults than anybody reads',
    spoil: (input) => {
      for (let index = 0; index < 600; index += 1) input[`extra-${index}`] = 1;
    },
    faults: [
      ['#/circuit', 'more-faults'],
      ...Array.from({ length: 600 }, (_, index) => `#/circuit/extra-${index}`)
        .sort()
        .slice(0, 500)
        .map((pointer) => [pointer, 'unknown-field'] as const),
    ],
  },
];
