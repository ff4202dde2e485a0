import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'labels-agree',
    title: 'Every part does what its role says',
    rationale:
      'Whoever inspects the car goes by the names on the drawing. What is judged here goes by what each part does; where the two differ, one of them is wrong, and the part that the name promises may be missing.',
    parameters: [],
    messages: {
      met: 'Every contact and resistor does what its role says, or has none.',
      violated: 'The circuit contradicts a role: {problems}.',
    },
    remedies: {
      correct: 'Correct the role, or the nodes between which the part is drawn: it was judged by what it does.',
    },
    inspect: 'Find the part on the car by its label and follow both of its leads.',
  },
  check({ circuit, topology }): Outcome {
    const { contradictions } = topology;
    return listOutcome(circuit, {
      wrong: contradictions.map(({ element, detail }) => ({ elements: [element], text: detail.replace(/\.$/, '') })),
      missing: [],
      elements: [],
      remedy: 'correct',
    });
  },
};
