import type { RuleCases } from '../rule-case.js';
import { soundFacts } from '../sound-facts.js';

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['hvd'] },
    {
      name: 'a way round the disconnect',
      facts: soundFacts({
        pathsPastDisconnect: [
          { elements: ['k-pre', 'r-pre', 'c-link'], nodes: ['f', 'pm', 'lp', 'tn'], resistance: 1000 },
        ],
      }),
      status: 'violated',
      message: 'violated',
      says: ['k-pre – r-pre – c-link'],
      elements: ['k-pre', 'r-pre', 'c-link'],
      remedySays: ['through the disconnect'],
    },
    {
      name: 'a link wired straight to the poles',
      facts: soundFacts({ pathsPastDisconnect: [{ elements: [], nodes: ['bp'], resistance: 0 }] }),
      status: 'violated',
      message: 'violated',
      says: ['bp'],
    },
    {
      name: 'no disconnect described',
      facts: soundFacts({ topology: { disconnects: [] } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements'],
    },
  ],
};
