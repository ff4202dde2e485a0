import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const watching = (...watches: string[]) => soundFacts({ circuit: soundCircuit({}, { indicator: { watches } }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['air-neg, air-pos, k-pre'] },
    {
      name: 'a pre-charge relay that is not watched',
      facts: watching('air-neg', 'air-pos'),
      status: 'violated',
      message: 'violated',
      says: ['k-pre is not watched'],
      elements: ['k-pre'],
      remedySays: ['k-pre'],
    },
    {
      name: 'nothing watched',
      facts: watching(),
      status: 'violated',
      message: 'violated',
      elements: ['air-neg', 'air-pos', 'k-pre'],
    },
    {
      name: 'another contact of the same relay watched',
      facts: soundFacts({
        circuit: soundCircuit(
          { 'air-neg': { relay: 'K1' }, 'air-pos': { relay: 'K1' } },
          { indicator: { watches: ['air-pos', 'k-pre'] } },
        ),
      }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'nothing stated of what is watched',
      facts: soundFacts({ circuit: soundCircuit({}, { indicator: {} }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/indicator/watches'],
    },
    {
      name: 'no relay to watch',
      facts: soundFacts({ topology: { isolationRelays: [], prechargeRelays: [] } }),
      status: 'not-applicable',
      message: 'none',
    },
  ],
};
