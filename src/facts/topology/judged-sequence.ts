import type { ResolvedCircuit } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { Facts, Topology } from '../facts.js';
import { defaultSequence } from './default-sequence.js';

/** The order of closing that is judged: the team's own where it is stated, literally; else the default without a release. */
export function judgedSequence(circuit: ResolvedCircuit, parts: Topology, conditions: Conditions): Facts['sequence'] {
  const stated = circuit.control.sequence;
  if (stated) return { steps: stated, source: 'stated' };
  return { steps: defaultSequence(circuit, parts, conditions, { release: false }), source: 'default' };
}
