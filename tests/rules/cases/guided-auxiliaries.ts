import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const relay = (change: object) => soundFacts({ circuit: soundCircuit({ 'air-pos': change }) });
const field = (name: string) => pointerTo(soundCircuit(), 'air-pos', name);

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    { name: 'a guided contact', facts: relay({ auxiliary: 'guided' }), status: 'met', message: 'met' },
    {
      name: 'a plain auxiliary',
      facts: relay({ auxiliary: 'plain' }),
      status: 'violated',
      message: 'violated',
      says: ['auxiliary of air-pos is a plain one'],
      elements: ['air-pos'],
      remedySays: ['normally closed'],
    },
    { name: 'no auxiliary', facts: relay({ auxiliary: 'none' }), status: 'violated', message: 'violated' },
    {
      name: 'a normally open one',
      facts: relay({ auxiliaryContact: 'normally-open' }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'an auxiliary not stated',
      facts: relay({ auxiliary: undefined, auxiliaryContact: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('auxiliary'), field('auxiliaryContact')],
    },
    {
      name: 'nothing stated of what is watched',
      facts: soundFacts({ circuit: soundCircuit({}, { indicator: {} }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/indicator/watches'],
    },
    {
      name: 'nothing watched',
      facts: soundFacts({ circuit: soundCircuit({}, { indicator: { watches: [] } }) }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['indicator-sees-contacts'],
    },
  ],
};
