import { elementsOf } from '../elements-of.js';
import { isWatched } from '../is-watched.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'indicator-sees-contacts',
    title: 'The active light sees every isolation relay and the pre-charge relay',
    rationale:
      'A welded relay leaves the car live although it was switched off. The light can only warn of it if it watches the contact itself, each one of them.',
    parameters: [],
    messages: {
      met: 'The active light watches every isolation relay and the pre-charge relay ({elements}).',
      violated: 'The active light does not watch every contact that it must: {problems}.',
      undetermined: 'Whether the active light watches every contact that it must cannot be told without {fields}.',
      none: 'There is neither an isolation relay nor a pre-charge relay to watch.',
    },
    remedies: {
      watch: 'Wire an auxiliary contact of {unwatched} into the active light’s logic.',
    },
    inspect:
      'Follow the active light’s inputs to the auxiliary contacts; unplug one: the light must not show a dead car.',
  },
  check({ circuit, topology }): Outcome {
    const ids = [...new Set([...topology.isolationRelays, ...topology.prechargeRelays])].sort();
    const contacts = elementsOf(circuit, ids, 'contact');
    if (contacts.length === 0) return { status: 'not-applicable', message: 'none' };
    const watches = circuit.indicator?.watches;
    const unwatched = watches === undefined ? [] : contacts.filter((contact) => !isWatched(circuit, contact));
    return listOutcome(circuit, {
      wrong: unwatched.map(({ id }) => ({ elements: [id], text: `${id} is not watched` })),
      missing: watches === undefined ? [`${circuit.pointer}/indicator/watches`] : [],
      elements: contacts.map(({ id }) => id),
      evidence: { watches: watches ?? null, required: contacts.map(({ id }) => id) },
      values: { unwatched: unwatched.map(({ id }) => id).join(', ') },
      remedy: 'watch',
    });
  },
};
