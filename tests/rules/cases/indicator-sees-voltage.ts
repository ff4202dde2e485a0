import type { RuleCases } from '../rule-case.js';
import { about, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const sensing = (senses: [string, string][] | undefined, changes: Record<string, object> = {}) =>
  soundFacts({ circuit: soundCircuit(changes, { indicator: senses === undefined ? {} : { senses } }) });
const sense = { kind: 'resistor', role: 'sense', resistance: about(1e6, 0.01) };

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['lp, tn'] },
    { name: 'the leads the other way round', facts: sensing([['tn', 'lp']]), status: 'met', message: 'met' },
    {
      name: 'leads behind sense resistors',
      facts: sensing([['s', 'tn']], { 'r-s': { ...sense, nodes: ['lp', 's'] } }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'leads ahead of the disconnect',
      facts: sensing([['tp', 'tn']]),
      status: 'violated',
      message: 'violated',
      says: ['tp, tn', '(lp, tn)'],
      remedySays: ['lp, tn'],
    },
    { name: 'nothing sensed', facts: sensing([]), status: 'violated', message: 'violated', says: ['nothing'] },
    {
      name: 'nothing stated of what is sensed',
      facts: sensing(undefined),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/indicator/senses'],
    },
    {
      name: 'a link not known',
      facts: soundFacts({ circuit: soundCircuit({}, { link: undefined as never }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/link'],
    },
  ],
};
