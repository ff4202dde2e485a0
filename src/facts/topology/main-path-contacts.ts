import type { Conducts } from './conducts.js';
import { isConductor } from './is-conductor.js';
import { partsBetween } from './parts-between.js';
import { search } from './search.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/** Contacts in the current path from a pole to the car, without a resistor in the way. */
export interface MainPath {
  readonly contacts: ReadonlySet<WirePart>;
  /** Those with no other contact between them and a pole. */
  readonly first: ReadonlySet<WirePart>;
}

const conductors: Conducts = ({ element }) => (isConductor(element) ? 0 : Infinity);
const withoutContacts: Conducts = (part) => (part.element.kind === 'contact' ? Infinity : conductors(part));

/**
 * Contacts through which the traction current flows: on a way without a resistor from a container's pole to the link
 * (without a link: to any load, machine or capacitor of the car), or to another container's pole.
 */
export function mainPathContacts(wiring: Wiring): MainPath {
  const ends = wiring.nodes.filter((node) => node.terminal);
  const goals = wiring.link ?? wiring.nodes.filter(feedsTheCar);
  const contacts = new Set<WirePart>();
  const add = (from: WireNode, to: WireNode): void => {
    if (from.level !== to.level) return;
    for (const part of partsBetween(wiring, from, to, conductors, Infinity, (node) => node.level === to.level)) {
      if (part.element.kind === 'contact') contacts.add(part);
    }
  };
  for (const end of ends) {
    for (const goal of goals) add(end, goal);
    for (const other of ends) if (other.index > end.index && !shareContainer(end, other)) add(end, other);
  }
  const first = new Set<WirePart>();
  for (const end of ends) {
    for (const node of search(wiring, end, withoutContacts).nodes) {
      for (const { part } of node.links) if (contacts.has(part)) first.add(part);
    }
  }
  return { contacts, first };
}

function feedsTheCar(node: WireNode): boolean {
  return node.links.some(
    ({ part: { element } }) =>
      element.zone === 'vehicle' &&
      (element.kind === 'load' || element.kind === 'machine' || element.kind === 'capacitor'),
  );
}

function shareContainer(one: WireNode, other: WireNode): boolean {
  const homes = containersOf(one);
  return containersOf(other).some((container) => homes.includes(container));
}

function containersOf(node: WireNode): string[] {
  return node.links.flatMap(({ part: { element } }) => (element.kind === 'accumulator' ? [element.container] : []));
}
