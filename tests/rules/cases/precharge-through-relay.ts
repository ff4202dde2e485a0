import type { RuleCases } from '../rule-case.js';
import { soundFacts } from '../sound-facts.js';

export const rows: RuleCases = {
  neverUndetermined: 'a way round the relay is a matter of the wiring, which is all stated',
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'a resistor round the relay',
      facts: soundFacts({
        topology: { prechargeBypass: { elements: ['r-around'], nodes: ['f', 'tp'], resistance: 4700 } },
      }),
      status: 'violated',
      message: 'violated',
      says: ['r-around'],
      elements: ['r-around'],
      remedySays: ['in series'],
    },
    {
      name: 'no path at all',
      facts: soundFacts({ topology: { prechargePath: [] } }),
      status: 'not-applicable',
      message: 'noPath',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
