import { elementsOf } from '../elements-of.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-supply',
    title: 'The shutdown circuit feeds the isolation relays and the pre-charge relay',
    rationale:
      'An emergency stop opens the shutdown circuit and counts on every relay to fall. A relay with another supply stays where it is.',
    parameters: [],
    messages: {
      met: 'The shutdown circuit feeds every isolation relay and the pre-charge relay ({elements}).',
      violated: 'A relay can stay closed with the shutdown circuit open: {problems}.',
      undetermined: 'Whether every relay falls with the shutdown circuit cannot be told without {fields}.',
      none: 'There is neither an isolation relay nor a pre-charge relay to judge.',
    },
    remedies: {
      feed: 'Feed the relay’s coil from the end of the shutdown circuit; software may switch it in addition, but not instead.',
    },
    inspect: 'Press each stop button in turn: every relay must be heard to fall.',
  },
  check({ circuit, topology }): Outcome {
    const ids = [...new Set([...topology.isolationRelays, ...topology.prechargeRelays])].sort();
    const contacts = elementsOf(circuit, ids, 'contact');
    if (contacts.length === 0) return { status: 'not-applicable', message: 'none' };
    const wrong = contacts
      .filter(({ suppliedBy }) => suppliedBy === 'independent')
      .map(({ id }) => ({ elements: [id], text: `${id} has a supply of its own` }));
    const missing = contacts
      .filter(({ suppliedBy }) => suppliedBy === undefined)
      .map(({ pointer }) => `${pointer}/suppliedBy`);
    const evidence = {
      supplies: contacts.map(({ id, suppliedBy }) => ({ contact: id, suppliedBy: suppliedBy ?? null })),
    };
    return listOutcome(circuit, { wrong, missing, elements: contacts.map(({ id }) => id), evidence, remedy: 'feed' });
  },
};
