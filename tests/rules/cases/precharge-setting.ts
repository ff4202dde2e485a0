import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts } from '../sound-facts.js';

const set = (threshold: number | undefined, comparisonError: number | undefined, method = 'voltage-comparison') =>
  soundCircuit({}, { precharge: { threshold, comparisonError, method } });
const base = '#/circuit/control/precharge';

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car: 97 % ± 0.5 %',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['97 %', '0.5 %', '96.5 %', '95 %'],
    },
    {
      name: '97 % ± 2 %, exactly 95 % whatever doubles make of it',
      facts: soundFacts({ circuit: set(0.97, 0.02) }),
      status: 'met',
      message: 'met',
    },
    {
      name: '96 % ± 2 %',
      facts: soundFacts({ circuit: set(0.96, 0.02), rise: { steadyRatio: figure(0.995, { min: 0.995 }) } }),
      status: 'violated',
      message: 'violated',
      says: ['94 %', '95 %'],
      remedySays: ['97 %', '99.5 %'],
    },
    {
      name: '96 % ± 2 % where 90 % is required',
      facts: soundFacts({ circuit: set(0.96, 0.02) }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
    },
    {
      name: '96 % ± 2 % on a link that settles at 97.77 %, where no setting fits',
      facts: soundFacts({ circuit: set(0.96, 0.02) }),
      status: 'violated',
      message: 'violated',
      remedySays: ['97.77 %', 'reduce the error'],
    },
    {
      name: '90 % with an error not stated',
      facts: soundFacts({ circuit: set(0.9, undefined) }),
      status: 'violated',
      message: 'below',
      says: ['90 %', '95 %'],
    },
    {
      name: '97 % with an error not stated',
      facts: soundFacts({ circuit: set(0.97, undefined) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${base}/comparisonError`],
    },
    {
      name: 'nothing set',
      facts: soundFacts({ circuit: set(undefined, undefined) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${base}/threshold`, `${base}/comparisonError`],
    },
    {
      name: 'a timer',
      facts: soundFacts({ circuit: set(undefined, undefined, 'timer') }),
      status: 'not-applicable',
      message: 'timer',
    },
  ],
};
