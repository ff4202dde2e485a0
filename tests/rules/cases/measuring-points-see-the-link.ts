import type { MeasuringPointState } from '../../../src/facts/facts.js';
import type { RuleCases } from '../rule-case.js';
import { soundFacts } from '../sound-facts.js';

const { measuringPointStates: _, ...unstated } = soundFacts();
const reading = (changes: Partial<MeasuringPointState>) =>
  soundFacts({
    measuringPointStates: [
      { state: 'disconnect-open', capacitor: 'c-link', capacitorVoltage: 400, reading: 400, error: 0, ...changes },
    ],
  });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['5 %'] },
    {
      name: 'points on the container’s side of the disconnect',
      facts: reading({ reading: 0, error: -1 }),
      status: 'violated',
      message: 'violated',
      says: ['disconnect-open', '400 V', 'the points read 0 V'],
      elements: ['c-link'],
      remedySays: ['capacitor’s own terminals'],
    },
    {
      name: 'points on an island of their own',
      facts: reading({ reading: null, error: -1 }),
      status: 'violated',
      message: 'violated',
      says: ['read nothing of it'],
    },
    {
      name: 'a reading 5 % low, which is still told',
      facts: reading({ reading: 380, error: -0.05 }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a reading 6 % low',
      facts: reading({ reading: 376, error: -0.06 }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a capacitor at 60 V, which needs no reading',
      facts: reading({ capacitorVoltage: 60, reading: 0, error: -1 }),
      status: 'not-applicable',
      message: 'nothing',
      says: ['60 V'],
    },
    {
      name: 'points not stated',
      facts: unstated,
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/measuringPoints'],
    },
  ],
};
