import { timeFigure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts } from '../sound-facts.js';

const control = (precharge: object) => soundCircuit({}, { precharge });
const timer = (delay: number | undefined) => control({ method: 'timer', delay });
const base = '#/circuit/control/precharge';

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'a timer where measured voltages are wanted',
      facts: soundFacts({ circuit: timer(60) }),
      status: 'violated',
      message: 'timer',
      elements: ['k-pre'],
      remedySays: ['compare the two'],
    },
    {
      // The longer of 2·t90 and t90 + 0.5 s: EV.5.6.2 of collegiate-ev-2024. Here t90 is 3.2 s at worst.
      name: 'a timer of 6.4 s where one is allowed and 6.4 s are needed',
      facts: soundFacts({ circuit: timer(6.4) }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'timerMet',
      says: ['6.4 s', '3.2 s'],
    },
    {
      name: 'a timer of 6.3 s where 6.4 s are needed',
      facts: soundFacts({ circuit: timer(6.3) }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'timerShort',
      says: ['6.3 s', '6.4 s'],
      remedySays: ['6.4 s'],
    },
    {
      name: 'a quick rise, where the half second counts: 0.2 s and 0.69 s',
      facts: soundFacts({ circuit: timer(0.69), rise: { timeToThreshold: timeFigure(0.2) } }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'timerShort',
      says: ['700 ms'],
    },
    {
      name: 'a timer on a rise that never arrives',
      facts: soundFacts({ circuit: timer(60), rise: { timeToThreshold: timeFigure(null) } }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'timerNever',
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'a timer without a delay',
      facts: soundFacts({ circuit: timer(undefined) }),
      ruleset: collegiate2024,
      status: 'undetermined',
      message: 'timerUndetermined',
      missing: [`${base}/delay`],
    },
    {
      name: 'a timer that tolerances decide about',
      facts: soundFacts({
        circuit: timer(5),
        rise: {
          timeToThreshold: timeFigure(2, {
            max: 3,
            stated: { min: 2, max: 2 },
            bare: ['#/circuit/elements/7/capacitance'],
          }),
        },
      }),
      ruleset: collegiate2024,
      status: 'undetermined',
      message: 'timerUndetermined',
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      name: 'a fixed voltage',
      facts: soundFacts({ circuit: control({ reference: 'fixed', fixedVoltage: 360 }) }),
      status: 'violated',
      message: 'fixed',
    },
    {
      name: 'a sense lead on the wrong side of the disconnect',
      facts: soundFacts({
        senseStates: [
          { state: 'disconnect-open', capacitor: 'c-link', sensedRatio: 0.98, capacitorRatio: 0, deceived: true },
        ],
      }),
      status: 'violated',
      message: 'deceived',
      says: ['disconnect-open', '98 %', '0 %', 'c-link'],
      remedySays: ['c-link'],
      elements: ['c-link'],
    },
    {
      name: 'a method not stated',
      facts: soundFacts({ circuit: control({ method: undefined }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${base}/method`],
    },
    {
      name: 'nothing stated of the control',
      facts: soundFacts({ circuit: soundCircuit({}, { control: {} }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${base}/method`, `${base}/reference`, `${base}/accumulatorSense`, `${base}/linkSense`],
    },
  ],
};
