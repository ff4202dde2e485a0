import type { Contact, Element, ResolvedCircuit } from '../../circuit/model.js';
import type { SeparationScenario } from '../conditions.js';
import type { SeparationState, Topology } from '../facts.js';

/**
 * What is open, and what has left the car, once everything has released after shutdown:
 * - `shutdown`: plugs and disconnects closed;
 * - `disconnect-open`: every disconnect open (the same as `shutdown` where there is none, so that it is still judged);
 * - `container-removed`: the plugs that separate the container are open; where none is declared for it, its elements are
 *   gone. With several containers one state each and one with all of them gone;
 * - `all-separated`: every disconnect open and all containers gone.
 *
 * Contacts:
 * - fed by the shutdown circuit, or supply not stated: at rest;
 * - in series with a discharge resistor and supplied `independent` or by a `controller`: open, because nobody can rely
 *   on its return;
 * - other contacts of a `controller`: at rest, because the shutdown circuit feeds them;
 * - other `independent` contacts: as energised, because nothing releases them. So an isolation relay that keeps the
 *   accumulator connected shows as a link that never falls.
 */
export function separationStates(circuit: ResolvedCircuit, parts: Topology): SeparationState[] {
  const discharging = new Set(parts.dischargeContacts);
  const contacts = circuit.elements.filter((element) => element.kind === 'contact');
  const open = contacts.filter((contact) => isOpen(contact, discharging.has(contact.id))).map(({ id }) => id);
  const disconnects = parts.disconnects;
  const state = (
    scenario: SeparationScenario,
    alsoOpen: readonly string[],
    leaving: readonly string[],
    container?: string,
  ): SeparationState => {
    const left = departure(circuit.elements, leaving);
    return {
      scenario,
      ...(container === undefined ? {} : { container }),
      id: container === undefined ? scenario : `${scenario}:${container}`,
      open: [...new Set([...open, ...alsoOpen, ...left.parted])].sort(),
      gone: left.gone,
    };
  };
  const single = parts.containers.length > 1 ? parts.containers : [];
  return [
    state('shutdown', [], []),
    state('disconnect-open', disconnects, []),
    ...single.map((container) => state('container-removed', [], [container], container)),
    state('container-removed', [], parts.containers),
    state('all-separated', disconnects, parts.containers),
  ];
}

function isOpen(contact: Contact, discharging: boolean): boolean {
  const { rest, suppliedBy } = contact;
  if (discharging && (suppliedBy === 'independent' || suppliedBy === 'controller')) return true;
  return suppliedBy === 'independent' ? rest === 'closed' : rest === 'open';
}

function departure(elements: readonly Element[], leaving: readonly string[]): { parted: string[]; gone: string[] } {
  const parted: string[] = [];
  const gone: string[] = [];
  for (const container of leaving) {
    const plugs = elements.filter((element) => element.kind === 'connector' && element.separates === container);
    if (plugs.length > 0) parted.push(...plugs.map(({ id }) => id));
    else gone.push(...elements.filter((element) => isIn(element, container)).map(({ id }) => id));
  }
  return { parted, gone: gone.sort() };
}

function isIn(element: Element, container: string): boolean {
  return element.container === container && (element.zone === 'container' || element.kind === 'accumulator');
}
