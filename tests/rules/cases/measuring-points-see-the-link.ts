import { createFacts } from '../../../src/facts/create-facts.js';
import type { MeasuringPointState } from '../../../src/facts/facts.js';
import type { RuleCases } from '../rule-case.js';
import { exact, soundCircuit } from '../sound-car.js';
import { soundFacts, student2020 } from '../sound-facts.js';

const { measuringPointStates: _, ...unstated } = soundFacts();
const reading = (changes: Partial<MeasuringPointState>) =>
  soundFacts({
    measuringPointStates: [
      {
        state: 'disconnect-open',
        capacitor: 'c-link',
        time: 0,
        capacitorVoltage: 400,
        reading: 400,
        error: 0,
        ...changes,
      },
    ],
  });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['5 %'] },
    {
      name: 'points on the container’s side of the disconnect',
      facts: reading({ reading: 0, error: 1 }),
      status: 'violated',
      message: 'violated',
      says: ['disconnect-open', '400 V', 'the points read 0 V'],
      elements: ['c-link'],
      remedySays: ['capacitor’s own terminals'],
    },
    {
      name: 'points on an island of their own',
      facts: reading({ reading: null, error: 1 }),
      status: 'violated',
      message: 'violated',
      says: ['read nothing of it'],
    },
    {
      name: 'a reading 5 % low, which is still told',
      facts: reading({ reading: 380, error: 0.05 }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a reading 6 % low',
      facts: reading({ reading: 376, error: 0.06 }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'no capacitor that is ever above 60 V',
      facts: soundFacts({ measuringPointStates: [] }),
      status: 'not-applicable',
      message: 'nothing',
      says: ['60 V'],
    },
    {
      // Both start at 400 V. c-far keeps its charge behind 100 kΩ for tens of seconds while the points fall with c-link.
      name: 'a second capacitor that is read well at first and keeps its charge behind a resistor',
      facts: createFacts(
        soundCircuit({
          'c-far': {
            kind: 'capacitor',
            nodes: ['far', 'tn'],
            capacitance: exact(100e-6),
            ratedVoltage: 500,
            initialVoltage: 0,
          },
          'r-far': { kind: 'resistor', nodes: ['lp', 'far'], role: 'other', resistance: exact(100_000) },
        }),
        student2020.conditions,
      ),
      status: 'violated',
      message: 'violated',
      says: ['c-far stands at', 'after the release', 'the points read'],
      elements: ['c-far'],
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
