import { elementsOf } from '../elements-of.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-relay-type',
    title: 'The pre-charge relay is electromechanical and normally open',
    rationale:
      'A semiconductor leaks when it is off and usually fails shorted, so it does not isolate; a contact that is closed at rest connects the accumulator with everything switched off.',
    parameters: [],
    messages: {
      met: 'The pre-charge relay ({elements}) is electromechanical and open at rest.',
      violated: 'The pre-charge relay must be electromechanical and open at rest: {problems}.',
      undetermined: 'Whether the pre-charge relay is electromechanical cannot be told without {fields}.',
      none: 'There is no pre-charge relay to judge.',
    },
    remedies: {
      replace:
        'Fit an electromechanical relay with a normally open contact, rated for the accumulator’s highest voltage in DC.',
    },
    inspect:
      'Read the type on the pre-charge relay and look up its data sheet; with everything off its contact must read open.',
  },
  check({ circuit, topology }): Outcome {
    const relays = elementsOf(circuit, topology.prechargeRelays, 'contact');
    if (relays.length === 0) {
      const causedBy = ['precharge-reaches-threshold', 'precharge-through-relay'];
      return { status: 'not-applicable', message: 'none', causedBy };
    }
    const wrong = relays.flatMap(({ id, construction, rest }) => [
      ...(construction === 'solid-state' ? [{ elements: [id], text: `${id} is solid-state` }] : []),
      ...(rest === 'closed' ? [{ elements: [id], text: `${id} is closed at rest` }] : []),
    ]);
    const missing = relays
      .filter(({ construction }) => construction === undefined)
      .map(({ pointer }) => `${pointer}/construction`);
    return listOutcome(circuit, { wrong, missing, elements: relays.map(({ id }) => id), remedy: 'replace' });
  },
};
