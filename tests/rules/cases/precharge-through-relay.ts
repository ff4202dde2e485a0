import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { exact, soundCircuit } from '../sound-car.js';
import { soundFacts, student2020 } from '../sound-facts.js';

const real = (changes: Record<string, object>) => createFacts(soundCircuit(changes), student2020.conditions);
const resistor = { kind: 'resistor', role: 'other', zone: 'container', resistance: exact(10_000) };

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
      name: 'a resistor across the last relay, which is a way out that nothing cuts',
      facts: real({ snubber: { ...resistor, nodes: ['f', 'tp'] } }),
      status: 'violated',
      message: 'violated',
      says: ['snubber'],
      causedBy: ['isolation-both-poles'],
    },
    {
      name: 'a last relay that leaks',
      facts: real({ 'air-pos': { openResistance: exact(10_000) } }),
      status: 'violated',
      message: 'violated',
      says: ['air-pos'],
      causedBy: ['no-unswitched-voltage-outside'],
    },
    {
      name: 'a way round by another contact outside, every way out of the container being cut',
      facts: soundFacts({
        topology: { prechargeBypass: { elements: ['air-pos', 'r-around'], nodes: ['f', 'tp', 'lp'], resistance: 50 } },
      }),
      status: 'violated',
      message: 'violated',
      causedBy: [],
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
