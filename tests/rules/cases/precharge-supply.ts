import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const supplied = (id: string, suppliedBy: string | undefined) =>
  soundFacts({ circuit: soundCircuit({ [id]: { suppliedBy } }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['air-neg, air-pos, k-pre'] },
    {
      name: 'a relay that software switches but the shutdown circuit feeds',
      facts: supplied('k-pre', 'controller'),
      status: 'met',
      message: 'met',
    },
    {
      name: 'an isolation relay with a supply of its own',
      facts: supplied('air-neg', 'independent'),
      status: 'violated',
      message: 'violated',
      says: ['air-neg has a supply of its own'],
      elements: ['air-neg'],
      remedySays: ['coil'],
    },
    {
      name: 'a supply not stated',
      facts: supplied('k-pre', undefined),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'k-pre', 'suppliedBy')],
    },
    {
      name: 'no relay at all',
      facts: soundFacts({ topology: { isolationRelays: [], prechargeRelays: [] } }),
      status: 'not-applicable',
      message: 'none',
    },
  ],
};
