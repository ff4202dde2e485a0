import type { Contact } from '../../circuit/model.js';
import { elementsOf } from '../elements-of.js';
import { isWatched } from '../is-watched.js';
import { listOutcome, type Wrong } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'guided-auxiliaries',
    title: 'A guided or mirror contact proves that a watched relay is open',
    rationale:
      'Only a normally closed auxiliary that is forcibly guided (IEC 61810-3) or a mirror contact (IEC 60947-4-1, Annex F) cannot be closed together with a welded main contact. A plain one can tell of an open relay that is not.',
    parameters: [],
    messages: {
      met: 'Every watched relay ({elements}) is proved open by a guided or mirror normally closed contact.',
      violated: 'A watched relay is not proved open by its auxiliary: {problems}.',
      undetermined: 'Whether the auxiliaries prove the watched relays open cannot be told without {fields}.',
      none: 'The active light watches neither an isolation relay nor the pre-charge relay.',
    },
    remedies: { replace: 'Use relays with a forcibly guided or mirror contact, normally closed, and read that one.' },
    inspect:
      'Look for the mark of a guided or mirror contact in the relay’s data sheet, and at which auxiliary is wired.',
  },
  check({ circuit, topology }): Outcome {
    const ids = [...new Set([...topology.isolationRelays, ...topology.prechargeRelays])].sort();
    const relays = elementsOf(circuit, ids, 'contact');
    if (relays.length > 0 && circuit.indicator?.watches === undefined) {
      return listOutcome(circuit, {
        wrong: [],
        missing: [`${circuit.pointer}/indicator/watches`],
        elements: relays.map(({ id }) => id),
        remedy: 'replace',
      });
    }
    const watched = relays.filter((contact) => isWatched(circuit, contact));
    if (watched.length === 0)
      return { status: 'not-applicable', message: 'none', causedBy: ['indicator-sees-contacts'] };
    return listOutcome(circuit, {
      wrong: watched.flatMap(unproved),
      missing: watched.flatMap(({ pointer, auxiliary, auxiliaryContact }) => [
        ...(auxiliary === undefined ? [`${pointer}/auxiliary`] : []),
        ...(auxiliaryContact === undefined ? [`${pointer}/auxiliaryContact`] : []),
      ]),
      elements: watched.map(({ id }) => id),
      evidence: {
        auxiliaries: watched.map(({ id, auxiliary, auxiliaryContact }) => ({
          contact: id,
          auxiliary: auxiliary ?? null,
          auxiliaryContact: auxiliaryContact ?? null,
        })),
      },
      remedy: 'replace',
    });
  },
};

function unproved({ id, auxiliary, auxiliaryContact }: Contact): Wrong[] {
  if (auxiliary === 'none') return [{ elements: [id], text: `${id} has no auxiliary contact` }];
  if (auxiliary === 'plain') return [{ elements: [id], text: `the auxiliary of ${id} is a plain one` }];
  if (auxiliaryContact === 'normally-open')
    return [{ elements: [id], text: `the auxiliary of ${id} is normally open` }];
  return [];
}
