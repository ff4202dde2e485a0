import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const relay = (change: object) => soundFacts({ circuit: soundCircuit({ 'k-pre': change }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['k-pre'] },
    {
      name: 'a solid-state relay',
      facts: relay({ construction: 'solid-state' }),
      status: 'violated',
      message: 'violated',
      says: ['k-pre is solid-state'],
      elements: ['k-pre'],
      remedySays: ['electromechanical'],
    },
    {
      name: 'a relay closed at rest',
      facts: relay({ rest: 'closed' }),
      status: 'violated',
      message: 'violated',
      says: ['closed at rest'],
    },
    {
      name: 'a construction not stated',
      facts: relay({ construction: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'k-pre', 'construction')],
    },
    {
      name: 'no pre-charge relay',
      facts: soundFacts({ topology: { prechargeRelays: [] } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['precharge-reaches-threshold', 'precharge-through-relay'],
    },
  ],
};
