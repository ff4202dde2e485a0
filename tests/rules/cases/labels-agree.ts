import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundFacts, student2020 } from '../sound-facts.js';

const facts = (changes: Readonly<Record<string, object | null>>) =>
  createFacts(soundCircuit(changes), student2020.conditions);

export const rows: RuleCases = {
  neverUndetermined: 'A role that is not stated contradicts nothing.',
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'no roles at all',
      facts: facts({ 'r-pre': { role: undefined }, 'k-pre': { role: undefined } }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a pre-charge resistor that carries none of the rise',
      facts: facts({
        'r-spare': {
          kind: 'resistor',
          role: 'precharge',
          nodes: ['lp', 'nowhere'],
          resistance: soundCircuit().elements.find((each) => each.kind === 'resistor')!.resistance,
        },
      }),
      status: 'violated',
      message: 'violated',
      says: ['r-spare is called the pre-charge resistor but carries none of the rise'],
      elements: ['r-spare'],
      remedySays: ['Correct the role'],
    },
    {
      name: 'a discharge relay that leads round an isolation relay',
      facts: facts({ 'k-pre': { role: 'discharge-relay' } }),
      status: 'violated',
      message: 'violated',
      says: ['k-pre is called a discharge relay but leads round an isolation relay'],
      elements: ['k-pre'],
    },
  ],
};
