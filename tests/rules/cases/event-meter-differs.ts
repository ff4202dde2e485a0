import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { about, bare, pointerTo, soundCircuit } from '../sound-car.js';
import { student2020 } from '../sound-facts.js';

const event = (eventMeterResistance: number | undefined, meter: object | null = {}) =>
  createFacts(soundCircuit({ meter }), {
    ...student2020.conditions,
    ...(eventMeterResistance === undefined ? {} : { eventMeterResistance }),
  });

export const rows: RuleCases = {
  cases: [
    { name: 'no event meter', facts: event(undefined), status: 'not-applicable', message: 'noEvent' },
    {
      name: 'none described',
      facts: event(47_000, null),
      status: 'not-applicable',
      message: 'notDescribed',
      says: ['47 kΩ'],
    },
    {
      name: 'a meter that only senses the link is none',
      facts: event(47_000, { role: 'voltage-sense' }),
      status: 'not-applicable',
      message: 'notDescribed',
    },
    { name: 'the same', facts: event(47_000), status: 'met', message: 'met', elements: ['meter'] },
    { name: 'within the tolerance stated', facts: event(46_500), status: 'met', message: 'met' },
    {
      name: 'the same, its tolerance not stated',
      facts: event(47_000, { resistance: bare(47_000) }),
      status: 'met',
      message: 'met',
    },
    {
      name: '47 kΩ described, the event’s 20 kΩ',
      facts: event(20_000),
      status: 'violated',
      message: 'violated',
      says: ['meter is 47 kΩ, the event’s 20 kΩ', 'lower resistance'],
      elements: ['meter'],
      remedySays: ['20 kΩ'],
    },
    {
      name: '47 kΩ described, the event’s 100 kΩ',
      facts: event(100_000),
      status: 'violated',
      message: 'violated',
      evidence: { described: 47_000, event: 100_000, unit: 'ratio' },
    },
    {
      name: 'near, its tolerance not stated',
      facts: event(46_500, { resistance: bare(47_000) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'meter', 'resistance')],
    },
    {
      name: 'just outside the tolerance',
      facts: event(45_000, { resistance: about(47_000, 0.04) }),
      status: 'violated',
      message: 'violated',
    },
  ],
};
