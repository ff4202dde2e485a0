import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const settles = (min: number, statedMin = min, missing: string[] = []) => ({
  steadyRatio: figure(0.99, { min, stated: { min: statedMin, max: 0.99 }, bare: missing }),
});
const set = (precharge: object) => soundCircuit({}, { precharge });

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car: 97 % ± 0.5 % below 97.77 %',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      elements: ['r-pre'],
      says: ['97.77 %', '97.5 %'],
    },
    {
      name: 'a link that settles between the level and the setting',
      facts: soundFacts({ rise: settles(0.965) }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      says: ['96.5 %', '97.5 %'],
      remedySays: ['96.5 %'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'a link that settles exactly at the setting with its error',
      facts: soundFacts({ rise: settles(0.97 + 0.005) }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'a link that settles below the level itself',
      facts: soundFacts({ rise: settles(0.94) }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      remedySays: ['no threshold'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'an error not stated',
      facts: soundFacts({ circuit: set({ comparisonError: undefined }) }),
      status: 'undetermined',
      message: 'undetermined',
      elements: ['r-pre'],
      missing: ['#/circuit/control/precharge/comparisonError'],
    },
    {
      name: 'an error not stated of a setting that is too high already',
      facts: soundFacts({ circuit: set({ comparisonError: undefined, threshold: 0.99 }) }),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'tolerances that decide',
      facts: soundFacts({ rise: settles(0.97, 0.98, ['#/circuit/elements/4/resistance']) }),
      status: 'undetermined',
      message: 'undetermined',
      elements: ['r-pre'],
      missing: ['#/circuit/elements/4/resistance'],
    },
    {
      name: 'a timer',
      facts: soundFacts({ circuit: set({ method: 'timer' }) }),
      status: 'not-applicable',
      message: 'timer',
    },
    {
      name: 'nothing that charges the link',
      facts: soundFacts({ rise: { steadyRatio: figure(null, { reason: 'no-path' }) } }),
      status: 'not-applicable',
      message: 'noPath',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
