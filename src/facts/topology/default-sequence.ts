import type { Contact, ResolvedCircuit, Step } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { Topology } from '../facts.js';
import { isEnergised } from './is-energised.js';

/** s between the last relay's closing and the opening of the pre-charge relays: make before break. Our choice. */
const OVERLAP = 0.1;
/** s that the car then stays on before a release is shown. Our choice. */
const DRIVE = 1;

/**
 * The order of closing that is taken where the team states none:
 * 1. at 0: the completing isolation relays and the pre-charge relays close; every other contact that the shutdown circuit
 *    feeds is energised (one that is closed at rest opens);
 * 2. at the threshold (with a timer: after its delay): the last isolation relays close;
 * 3. 0.1 s later: the pre-charge relays open;
 * 4. with `release`, 1 s later: the shutdown circuit opens.
 *
 * Steps 2 and 3 are left out where no isolation relay is left to close: the car then stays on its pre-charge branch.
 * Contacts of one `relay` move together: what brings one of them off its rest brings all off theirs.
 */
export function defaultSequence(
  circuit: ResolvedCircuit,
  parts: Topology,
  conditions: Conditions,
  options: { readonly release: boolean },
): Step[] {
  const contacts = circuit.elements.filter((element) => element.kind === 'contact');
  const named = (ids: readonly string[]): Contact[] => contacts.filter(({ id }) => ids.includes(id));
  const first = mover(contacts);
  for (const contact of named([...parts.completingRelays, ...parts.prechargeRelays])) first.move(contact, 'closed');
  const waiting = new Set([...parts.bridgedRelays, ...parts.completingRelays, ...parts.prechargeRelays]);
  for (const contact of contacts) {
    if (!waiting.has(contact.id) && isEnergised(contact)) first.move(contact, opposite(contact.rest));
  }
  const steps: Step[] = [{ at: 0, ...first.moved(), release: false }];
  if (parts.bridgedRelays.length > 0) {
    const second = mover(contacts);
    for (const contact of named(parts.bridgedRelays)) second.move(contact, 'closed');
    steps.push({ ...closesWhen(circuit, conditions), ...second.moved(), release: false });
    if (parts.prechargeRelays.length > 0) {
      const third = mover(contacts);
      for (const contact of named(parts.prechargeRelays)) third.move(contact, 'open');
      steps.push({ after: OVERLAP, ...third.moved(), release: false });
    }
  }
  if (options.release) steps.push({ after: DRIVE, close: [], open: [], release: true });
  return steps;
}

function closesWhen(circuit: ResolvedCircuit, conditions: Conditions): Pick<Step, 'after' | 'when'> {
  const { method, delay, threshold } = circuit.control.precharge ?? {};
  const timer = method === 'timer' || (method === undefined && threshold === undefined);
  if (timer && delay !== undefined) return { after: delay };
  return { when: { linkRatio: threshold ?? conditions.threshold, falling: false } };
}

function opposite(position: Contact['rest']): Contact['rest'] {
  return position === 'open' ? 'closed' : 'open';
}

/** Collects one step's movements; the first word on a contact counts. */
function mover(contacts: readonly Contact[]) {
  const positions = new Map<string, Contact['rest']>();
  const at = (position: Contact['rest']): string[] =>
    contacts.flatMap(({ id }) => (positions.get(id) === position ? [id] : []));
  return {
    move(contact: Contact, position: Contact['rest']): void {
      const off = position !== contact.rest;
      for (const member of contacts) {
        const together = member === contact || (contact.relay !== undefined && member.relay === contact.relay);
        if (!together || positions.has(member.id)) continue;
        positions.set(member.id, off ? opposite(member.rest) : member.rest);
      }
    },
    moved: (): Pick<Step, 'close' | 'open'> => ({ close: at('closed'), open: at('open') }),
  };
}
