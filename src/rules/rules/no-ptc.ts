import { elementsOf } from '../elements-of.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'no-ptc',
    title: 'No PTC limits the pre-charge or the discharge',
    rationale:
      'A PTC that is hot hardly conducts: after a few starts the link is neither charged nor discharged in time.',
    parameters: [],
    messages: {
      met: 'No PTC stands in the pre-charge or discharge circuit ({elements}).',
      violated: 'A PTC stands where a plain resistor must: {problems}.',
      undetermined: 'Whether a PTC stands in the pre-charge or discharge circuit cannot be told without {fields}.',
      none: 'There is neither a pre-charge nor a discharge resistor to judge.',
    },
    remedies: { replace: 'Use a wirewound resistor with the overload rating that the work asks for.' },
    inspect: 'Read the type of both resistors; a PTC is a disc or a block without a stated power.',
  },
  check({ circuit, topology }): Outcome {
    const ids = [...new Set([...topology.prechargeResistors, ...topology.dischargeResistors])].sort();
    const resistors = elementsOf(circuit, ids, 'resistor');
    if (resistors.length === 0) return { status: 'not-applicable', message: 'none' };
    const wrong = resistors
      .filter(({ technology }) => technology === 'ptc')
      .map(({ id }) => ({ elements: [id], text: `${id} is a PTC` }));
    const missing = resistors
      .filter(({ technology }) => technology === undefined)
      .map(({ pointer }) => `${pointer}/technology`);
    const evidence = {
      technologies: resistors.map(({ id, technology }) => ({ resistor: id, technology: technology ?? null })),
    };
    return listOutcome(circuit, {
      wrong,
      missing,
      elements: resistors.map(({ id }) => id),
      evidence,
      remedy: 'replace',
    });
  },
};
