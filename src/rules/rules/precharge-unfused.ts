import { carriesTraction } from '../carries-traction.js';
import { elementsOf } from '../elements-of.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-unfused',
    title: 'No fuse of its own stands in the pre-charge path',
    rationale:
      'A fuse that carries only the pre-charge current blows unseen; where a timer or a wrong sense point decides, the last relay then closes onto an empty link.',
    parameters: [],
    messages: {
      met: 'No fuse carries only the pre-charge current.',
      violated: 'A fuse carries the pre-charge current alone: {problems}.',
      noPath: 'No path charges the link.',
    },
    remedies: { remove: 'Take the fuse out of the pre-charge branch; the main fuse protects the container.' },
    inspect: 'Look for fuses, fusible links on a board included, between the pole and the pre-charge resistor.',
  },
  check({ circuit, topology }): Outcome {
    if (topology.prechargePath.length === 0) {
      return { status: 'not-applicable', message: 'noPath', causedBy: ['precharge-reaches-threshold'] };
    }
    const fuses = elementsOf(circuit, topology.prechargePath, 'fuse');
    const wrong = fuses
      .filter((fuse) => !carriesTraction(circuit, topology, fuse))
      .map(({ id }) => ({ elements: [id], text: `${id} carries nothing once the last relay has closed` }));
    const elements = fuses.map(({ id }) => id);
    return listOutcome(circuit, { wrong, missing: [], elements, evidence: { fuses: elements }, remedy: 'remove' });
  },
};
