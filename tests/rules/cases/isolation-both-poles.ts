import type { PoleExit } from '../../../src/facts/facts.js';
import type { RuleCases } from '../rule-case.js';
import { soundExits, soundFacts } from '../sound-facts.js';

const [positive, ...others] = soundExits as [PoleExit, ...PoleExit[]];
const [branch, negative] = others as [PoleExit, PoleExit];
const { cutBy: _, ...uncut } = positive;
const exit = (changes: Partial<PoleExit>) => soundFacts({ exits: [{ ...positive, ...changes }, ...others] });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['air-pos, k-pre, air-neg'] },
    {
      name: 'a way out that nothing cuts',
      facts: soundFacts({ exits: [{ ...uncut, faults: ['none'] }, ...others] }),
      status: 'violated',
      message: 'violated',
      says: ['positive pole of container main', 'nothing in it opens'],
      elements: ['fuse-main', 'air-pos'],
      remedySays: ['isolation relay into each pole'],
    },
    {
      name: 'a relay outside the container',
      facts: exit({ faults: ['outside-container'] }),
      status: 'violated',
      message: 'violated',
      elements: ['air-pos'],
    },
    {
      name: 'a solid-state relay closed at rest',
      facts: exit({ faults: ['rest-closed', 'solid-state'] }),
      status: 'violated',
      message: 'violated',
      says: ['closed at rest and its contact is solid-state'],
    },
    {
      name: 'a solid-state pre-charge relay, which has a rule of its own',
      facts: soundFacts({ exits: [positive, { ...branch, faults: ['solid-state'] }, negative] }),
      status: 'violated',
      message: 'violated',
      says: ['fuse-main, k-pre, r-pre', 'its contact is solid-state'],
      causedBy: ['precharge-relay-type'],
    },
    {
      name: 'a solid-state isolation relay besides',
      facts: soundFacts({
        exits: [{ ...positive, faults: ['solid-state'] }, { ...branch, faults: ['solid-state'] }, negative],
      }),
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'a pre-charge relay outside the container',
      facts: soundFacts({ exits: [positive, { ...branch, faults: ['outside-container'] }, negative] }),
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'a contact of another role',
      facts: exit({ faults: ['wrong-role'] }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a construction not stated',
      facts: exit({ missing: ['#/circuit/elements/2/construction'] }),
      status: 'undetermined',
      message: 'undetermined',
      says: ['construction of air-pos'],
      missing: ['#/circuit/elements/2/construction'],
    },
    { name: 'no way out', facts: soundFacts({ exits: [] }), status: 'not-applicable', message: 'noExits' },
  ],
};
