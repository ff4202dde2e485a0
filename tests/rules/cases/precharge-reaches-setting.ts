import { createFacts } from '../../../src/facts/create-facts.js';
import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { exact, soundCircuit } from '../sound-car.js';
import { soundFacts, student2020 } from '../sound-facts.js';

const settles = (min: number, statedMin = min, missing: string[] = []) => ({
  steadyRatio: figure(0.99, { min, stated: { min: statedMin, max: 0.99 }, bare: missing }),
});
/** The sound car with 47 kΩ on the link and so many ohms in the accumulator and in the pre-charge resistor. */
const behind = (accumulator: number, resistor: number) =>
  createFacts(
    soundCircuit({
      acc: { resistance: exact(accumulator) },
      'r-pre': { resistance: exact(resistor) },
      meter: { resistance: exact(47_000) },
    }),
    student2020.conditions,
  );
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
      remedySays: ['No threshold'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      // 47 000 Ω · 0.025/0.975 = 1205 Ω, a fifth below it 964 Ω: the divider.
      name: 'a link that a smaller resistance lets charge above the setting',
      facts: behind(0, 2000),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      remedySays: ['lower the pre-charge resistance to a nominal value below 1.205 kΩ (910 Ω leaves a margin'],
      causedBy: ['precharge-reaches-threshold'],
    },
    {
      name: 'a link that no resistance lets charge above the setting, the accumulator’s being too large',
      facts: behind(1500, 100),
      status: 'violated',
      message: 'violated',
      elements: ['r-pre'],
      remedySays: ['take load off the link during pre-charge, since no pre-charge resistance alone'],
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
