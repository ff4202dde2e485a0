import { timeFigure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car: 3.2 s against 5 s',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      elements: ['r-pre'],
      says: ['3.2 s', '5 s'],
    },
    {
      name: 'a rise of exactly the timeout',
      facts: soundFacts({ rise: { timeToThreshold: timeFigure(3, { max: 5 }) } }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
    },
    {
      name: 'a slow rise',
      facts: soundFacts({ rise: { timeToThreshold: timeFigure(3, { max: 5.2 }) } }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      says: ['5.2 s', '5 s'],
      remedySays: ['6.5 s'],
    },
    {
      name: 'a rise that never ends at the worst corner',
      facts: soundFacts({ rise: { timeToThreshold: timeFigure(3, { max: null, stated: { min: 3, max: null } }) } }),
      status: 'violated',
      message: 'never',
      elements: ['r-pre'],
      remedySays: ['Cure first'],
      causedBy: ['precharge-reaches-threshold', 'precharge-reaches-setting'],
    },
    {
      name: 'no timeout stated',
      facts: soundFacts({ circuit: soundCircuit({}, { precharge: { timeout: undefined } }) }),
      status: 'undetermined',
      message: 'undetermined',
      elements: ['r-pre'],
      missing: ['#/circuit/control/precharge/timeout'],
    },
    {
      name: 'no threshold stated: the rise may have to go further than it was timed to',
      facts: soundFacts({ circuit: soundCircuit({}, { precharge: { threshold: undefined } }) }),
      status: 'undetermined',
      message: 'undetermined',
      elements: ['r-pre'],
      missing: ['#/circuit/control/precharge/threshold'],
    },
    {
      name: 'a capacitance without a tolerance that decides',
      facts: soundFacts({
        rise: {
          timeToThreshold: timeFigure(4.5, {
            max: 5.4,
            stated: { min: 4.5, max: 4.5 },
            bare: ['#/circuit/elements/7/capacitance'],
          }),
        },
      }),
      status: 'undetermined',
      message: 'undetermined',
      elements: ['r-pre'],
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      name: 'a timer',
      facts: soundFacts({ circuit: soundCircuit({}, { precharge: { method: 'timer' } }) }),
      status: 'not-applicable',
      message: 'timer',
    },
    {
      name: 'nothing that charges the link',
      facts: soundFacts({ rise: { timeToThreshold: timeFigure(null, { reason: 'no-path' }) } }),
      status: 'not-applicable',
      message: 'noPath',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
