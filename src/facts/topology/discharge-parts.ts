import type { Topology } from '../facts.js';
import type { Conducts } from './conducts.js';
import { isConductor } from './is-conductor.js';
import { partsBetween } from './parts-between.js';
import { resistanceOf } from './resistance-of.js';
import type { RelayRoles } from './relay-roles.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

export interface DischargeParts {
  readonly dischargeResistors: readonly WirePart[];
  readonly dischargeContacts: readonly WirePart[];
  readonly contradictions: Topology['contradictions'];
}

/**
 * Resistors that empty the link, or another capacitor of the car, and the contacts in series with them. A resistor
 * labelled for discharge counts where it can bridge such a capacitor at all; one without a label counts where it does so
 * with every contact at rest, directly or through others, at less than the isolation resistance, and between two
 * different known potentials (which leaves out a resistor between two capacitors of the same pole). Where none does,
 * those that do with every contact closed are taken. Resistors labelled bleed, sense, body protection or other are none.
 *
 * @param capacitors Those of the car.
 * @param isolation Ω from which a path counts as isolated.
 */
export function dischargeParts(
  wiring: Wiring,
  roles: RelayRoles,
  capacitors: readonly WirePart[],
  isolation: number,
): DischargeParts {
  const stores: [WireNode, WireNode][] = capacitors.map(({ a, b }): [WireNode, WireNode] => [a, b]);
  const { link } = wiring;
  if (link && !stores.some(([a, b]) => (a === link[0] && b === link[1]) || (a === link[1] && b === link[0]))) {
    stores.unshift([...link]);
  }
  const poleToPole = stores.filter(([a, b]) => a.level >= 0 && b.level >= 0 && a.level !== b.level);
  const cuts = (part: WirePart): boolean => roles.isolationRelays.has(part) || roles.prechargeRelays.has(part);
  const closed: Conducts = (part) => (cuts(part) || !mayDischarge(part) ? Infinity : nominal(part));
  const atRest: Conducts = (part) => (opensAtRest(part) ? Infinity : closed(part));
  const bridging = (conducts: Conducts, below: number, between: readonly [WireNode, WireNode][]): Set<WirePart> =>
    new Set(between.flatMap(([a, b]) => partsBetween(wiring, a, b, conducts, below)));

  const contradictions: { element: string; detail: string }[] = [];
  const possible = bridging(closed, Infinity, stores);
  const resistors = wiring.parts.filter(({ element }) => element.kind === 'resistor' && !isConductor(element));
  const chosen = new Set<WirePart>();
  const unlabelled: WirePart[] = [];
  for (const part of resistors) {
    const role = part.element.kind === 'resistor' ? part.element.role : undefined;
    if (roles.prechargeResistors.has(part)) continue;
    if (role === 'discharge') {
      if (possible.has(part)) chosen.add(part);
      else {
        const detail = `${part.element.id} is called a discharge resistor but bridges no capacitor on the car’s side of the isolation relays.`;
        contradictions.push({ element: part.element.id, detail });
      }
    } else if (role === undefined || role === 'precharge') unlabelled.push(part);
  }
  if (unlabelled.length > 0) {
    const doing = bridging(atRest, isolation, poleToPole);
    for (const part of unlabelled) if (doing.has(part)) chosen.add(part);
    if (chosen.size === 0) {
      const able = bridging(closed, isolation, poleToPole);
      for (const part of unlabelled) if (able.has(part)) chosen.add(part);
    }
  }

  const onlyChosen: Conducts = (part) =>
    part.element.kind === 'resistor' && !isConductor(part.element) && !chosen.has(part) ? Infinity : closed(part);
  const carrying = bridging(onlyChosen, Infinity, stores);
  const joining = contactsBetweenStores(wiring, stores, closed);
  const dischargeContacts = wiring.parts.filter(
    (part) =>
      part.element.kind === 'contact' &&
      carrying.has(part) &&
      (part.element.role === 'discharge-relay' || !joining.has(part)),
  );
  for (const { element } of wiring.parts) {
    if (element.kind !== 'contact' || element.role !== 'discharge-relay') continue;
    if (dischargeContacts.some((part) => part.element === element)) continue;
    if (roles.contradictions.some((known) => known.element === element.id)) continue;
    const detail = `${element.id} is called a discharge relay but no discharge resistor hangs on it.`;
    contradictions.push({ element: element.id, detail });
  }
  return { dischargeResistors: resistors.filter((part) => chosen.has(part)), dischargeContacts, contradictions };
}

/** Contacts that join two capacitors of the same pole (a second inverter's own contactor): no part of a discharge branch. */
function contactsBetweenStores(
  wiring: Wiring,
  stores: readonly [WireNode, WireNode][],
  closed: Conducts,
): Set<WirePart> {
  const ends = [...new Set(stores.flat())].filter((node) => node.level >= 0);
  const conductors: Conducts = (part) => (isConductor(part.element) ? closed(part) : Infinity);
  const found = new Set<WirePart>();
  for (const [place, from] of ends.entries()) {
    for (const to of ends.slice(place + 1)) {
      if (from.level !== to.level) continue;
      for (const part of partsBetween(wiring, from, to, conductors, Infinity)) found.add(part);
    }
  }
  return found;
}

function mayDischarge({ element }: WirePart): boolean {
  return element.kind === 'resistor' || isConductor(element);
}

/** A contact labelled as discharge relay counts as closed at rest: that it may not be is a finding of its own. */
function opensAtRest({ element }: WirePart): boolean {
  return element.kind === 'contact' && element.rest === 'open' && element.role !== 'discharge-relay';
}

function nominal({ element }: WirePart): number {
  return resistanceOf(element, (value) => value.nominal, 0);
}
