import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts, soundTopology } from '../sound-facts.js';

const fuse = { kind: 'fuse', zone: 'container' };
const path = (...ids: string[]) => [...soundTopology.prechargePath, ...ids].sort();

export const rows: RuleCases = {
  neverUndetermined: 'a fuse in the branch is a matter of the wiring, which is all stated',
  cases: [
    {
      name: 'a main fuse that carries the traction current too',
      facts: soundFacts(),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
    },
    {
      name: 'a fuse between the pre-charge relay and its resistor',
      facts: soundFacts({
        circuit: soundCircuit({ 'k-pre': { nodes: ['f', 'pf'] }, 'fuse-pre': { ...fuse, nodes: ['pf', 'pm'] } }),
        topology: { prechargePath: path('fuse-pre') },
      }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
      says: ['fuse-pre'],
      elements: ['fuse-pre'],
      remedySays: ['main fuse'],
    },
    {
      name: 'a fuse outside in the negative line, which carries both',
      facts: soundFacts({
        circuit: soundCircuit({ 'air-neg': { nodes: ['bn', 'tx'] }, 'fuse-neg': { ...fuse, nodes: ['tx', 'tn'] } }),
        topology: { prechargePath: path('fuse-neg') },
      }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
    },
    {
      name: 'no path at all',
      facts: soundFacts({ topology: { prechargePath: [] } }),
      ruleset: collegiate2024,
      status: 'not-applicable',
      message: 'noPath',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
