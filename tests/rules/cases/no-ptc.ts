import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts } from '../sound-facts.js';

const technology = (id: string, value: string | undefined) =>
  soundFacts({ circuit: soundCircuit({ [id]: { technology: value } }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), ruleset: collegiate2024, status: 'met', message: 'met' },
    {
      name: 'a PTC as pre-charge resistor',
      facts: technology('r-pre', 'ptc'),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
      says: ['r-pre is a PTC'],
      elements: ['r-pre'],
      remedySays: ['wirewound'],
    },
    {
      name: 'a PTC in the discharge',
      facts: technology('r-dis', 'ptc'),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a technology not stated',
      facts: technology('r-dis', undefined),
      ruleset: collegiate2024,
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'r-dis', 'technology')],
    },
    {
      name: 'no resistor at all',
      facts: soundFacts({ topology: { prechargeResistors: [], dischargeResistors: [] } }),
      ruleset: collegiate2024,
      status: 'not-applicable',
      message: 'none',
    },
  ],
};
