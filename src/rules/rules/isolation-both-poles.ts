import type { Facts, PoleExit } from '../../facts/facts.js';
import { elementsOf } from '../elements-of.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';
import { wayText } from '../way-text.js';

const FAULTS: Readonly<Record<PoleExit['faults'][number], string>> = {
  none: 'nothing in it opens',
  'rest-closed': 'its contact is closed at rest',
  'solid-state': 'its contact is solid-state',
  'outside-container': 'its contact sits outside the container',
  'wrong-role': 'its contact is no isolation relay',
};

export const rule: Rule = {
  meta: {
    id: 'isolation-both-poles',
    title: 'Isolation relays cut every way out of each container',
    rationale:
      'With the shutdown circuit open no container may be live outside. One relay can weld, and one pole left connected needs only one insulation fault more, so every way out of either pole is cut inside the container.',
    parameters: [],
    messages: {
      met: 'Every way out of a container is cut in its pole by a normally open electromechanical relay inside it ({elements}).',
      violated: 'Not every way out of a container is cut as it must be: {problems}.',
      undetermined: 'Whether every way out of a container is cut as it must be cannot be told without {fields}.',
      noExits: 'No way leads out of a container, so there is nothing to cut.',
    },
    remedies: {
      cut: 'Put a normally open electromechanical isolation relay into each pole inside the container, and start the pre-charge branch behind a relay of its own in there.',
    },
    inspect:
      'Open the container’s drawing: trace each pole to the wall and name the relay that every conductor passes.',
  },
  check(facts): Outcome {
    const { circuit, exits } = facts;
    if (exits.length === 0) return { status: 'not-applicable', message: 'noExits' };
    const wrong = exits
      .filter(({ faults }) => faults.length > 0)
      .map(({ pole, path, faults, cutBy }) => ({
        elements: cutBy === undefined ? path.elements : [cutBy],
        text: `from the ${pole.polarity} pole of container ${pole.container} ${wayText(path.elements)}: ${faults.map((fault) => FAULTS[fault]).join(' and ')}`,
      }));
    const missing = exits.flatMap((exit) => exit.missing);
    const elements = [...new Set(exits.flatMap(({ cutBy }) => (cutBy === undefined ? [] : [cutBy])))];
    const faulty = exits.find(({ faults }) => faults.length > 0) ?? exits.find((exit) => exit.missing.length > 0);
    const evidence = {
      path: (faulty ?? exits[0])?.path.elements ?? [],
      exits: exits.map(({ pole, path, cutBy, faults }) => ({
        container: pole.container,
        pole: pole.polarity,
        path: path.elements,
        cutBy: cutBy ?? null,
        faults,
      })),
    };
    const outcome = listOutcome(circuit, { wrong, missing, elements, evidence, remedy: 'cut' });
    const flawed = exits.filter(({ faults }) => faults.length > 0);
    const consequence = flawed.length > 0 && flawed.every((exit) => throughPrechargeRelayOnly(facts, exit));
    return consequence ? { ...outcome, causedBy: ['precharge-relay-type'] } : outcome;
  },
};

/** True where all that is wrong with a way out is the type of the pre-charge relay in it, which has a rule of its own. */
function throughPrechargeRelayOnly({ circuit, topology }: Facts, { path, faults }: PoleExit): boolean {
  const contacts = elementsOf(circuit, path.elements, 'contact');
  return (
    contacts.length > 0 &&
    contacts.every(({ id }) => topology.prechargeRelays.includes(id)) &&
    faults.every((fault) => fault === 'solid-state' || fault === 'rest-closed')
  );
}
