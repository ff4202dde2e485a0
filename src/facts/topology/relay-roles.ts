import type { Topology } from '../facts.js';
import type { Conducts } from './conducts.js';
import { isConductor } from './is-conductor.js';
import { mainPathContacts } from './main-path-contacts.js';
import { partsBetween } from './parts-between.js';
import { resistanceOf } from './resistance-of.js';
import { waysToTheLink } from './ways-to-the-link.js';
import type { WirePart, Wiring } from './wiring.js';

export interface RelayRoles {
  readonly isolationRelays: ReadonlySet<WirePart>;
  readonly prechargeRelays: ReadonlySet<WirePart>;
  readonly prechargeResistors: ReadonlySet<WirePart>;
  /** Isolation relays that a pre-charge relay or resistor bridges. */
  readonly bridged: ReadonlySet<WirePart>;
  readonly contradictions: Topology['contradictions'];
}

/** Every contact closed; nominal values; no load, meter, capacitor or accumulator. */
const allClosed: Conducts = ({ element }) =>
  element.kind === 'load' || (element.kind === 'meter' && !isConductor(element))
    ? Infinity
    : resistanceOf(element, (value) => value.nominal, 0);

/** The same with resistors labelled for pre-charge taken for conductors, whatever their value. */
const labelledFreely: Conducts = (part) =>
  part.element.kind === 'resistor' && part.element.role === 'precharge' ? 0 : allClosed(part);

/**
 * Which contacts and resistors isolate and pre-charge. A label counts unless the circuit contradicts it; what has no
 * label, or a contradicted one, goes by what it does:
 * - an isolation relay is the first contact from a pole towards the car, or any contact of that path in a container;
 * - a pre-charge relay is a contact outside that path, in series with a resistor round an isolation relay;
 * - a pre-charge resistor is one in series with a pre-charge relay there, or alone where there is no relay.
 *
 * 'Round an isolation relay' is a path between its two nodes, the relay aside, that visits no node of another known
 * potential: so it passes no accumulator and never crosses the link or a bleed resistor. What is labelled, or in series
 * with a labelled part, counts at any resistance (a mistyped value must show as a value); the rest only below `isolation`.
 *
 * @param isolation Ω from which a path without labels counts as isolated (a sense lead pre-charges nothing).
 */
export function relayRoles(wiring: Wiring, isolation: number): RelayRoles {
  const main = mainPathContacts(wiring);
  const contradictions: { element: string; detail: string }[] = [];
  const contradict = ({ element }: WirePart, name: string, reality: string): void => {
    contradictions.push({ element: element.id, detail: `${element.id} is called ${name} but ${reality}.` });
  };
  const contacts = wiring.parts.filter(({ element }) => element.kind === 'contact');
  const resistors = wiring.parts.filter(({ element }) => element.kind === 'resistor' && !isConductor(element));
  let carried: ReadonlySet<WirePart> | undefined;
  const carriesTheRise = (part: WirePart): boolean =>
    (carried ??= new Set(waysToTheLink(wiring, allClosed, Infinity))).has(part);

  const isolationRelays = new Set<WirePart>();
  for (const part of contacts) {
    const role = roleOf(part);
    if (role === 'isolation-relay') {
      if (main.contacts.has(part)) isolationRelays.add(part);
      else contradict(part, 'an isolation relay', 'lies in no pole’s way to the car');
    } else if (role === undefined && main.contacts.has(part)) {
      if (part.element.zone === 'container' || main.first.has(part)) isolationRelays.add(part);
    }
  }
  const bridges = new Map<WirePart, readonly WirePart[]>();
  const bridging = new Set<WirePart>();
  const near = new Set<WirePart>();
  const bridge = (relay: WirePart): void => {
    const round = partsRound(wiring, relay, Infinity, labelledFreely);
    bridges.set(relay, round);
    for (const part of round) bridging.add(part);
    const total = round.reduce((sum, part) => sum + labelledFreely(part), 0);
    for (const part of total < isolation ? round : partsRound(wiring, relay, isolation, labelledFreely)) near.add(part);
  };
  for (const relay of isolationRelays) bridge(relay);

  const prechargeRelays = new Set<WirePart>();
  for (const part of contacts) {
    const role = roleOf(part);
    if (role === 'precharge-relay') {
      if (bridging.has(part) && !isolationRelays.has(part)) prechargeRelays.add(part);
      else if (main.contacts.has(part)) {
        contradict(part, 'a pre-charge relay', 'carries the traction current and has no isolation relay beside it');
        isolationRelays.add(part);
        bridge(part);
      } else if (carriesTheRise(part)) prechargeRelays.add(part);
      else contradict(part, 'the pre-charge relay', 'carries none of the rise');
    }
  }
  for (const part of contacts) {
    const role = roleOf(part);
    if (main.contacts.has(part) || !near.has(part) || role === 'precharge-relay' || role === 'other') continue;
    prechargeRelays.add(part);
    if (role === 'discharge-relay') contradict(part, 'a discharge relay', 'leads round an isolation relay');
  }

  const inferred = new Set<WirePart>();
  if (resistors.some((part) => bridging.has(part) && roleOf(part) !== 'precharge')) {
    for (const [relay, round] of bridges) {
      const switched = round.some((part) => prechargeRelays.has(part));
      const withoutRelays: Conducts = (part) => (prechargeRelays.has(part) ? Infinity : allClosed(part));
      const beside = new Set(switched ? partsRound(wiring, relay, Infinity, withoutRelays) : []);
      for (const part of round) if (switched ? !beside.has(part) : near.has(part)) inferred.add(part);
    }
  }
  const prechargeResistors = new Set<WirePart>();
  for (const part of resistors) {
    const role = roleOf(part);
    if (role === 'precharge') {
      if (bridging.has(part) || carriesTheRise(part)) prechargeResistors.add(part);
      else contradict(part, 'the pre-charge resistor', 'carries none of the rise');
    } else if (inferred.has(part) && (role === undefined || role === 'discharge')) {
      prechargeResistors.add(part);
      if (role === 'discharge') contradict(part, 'a discharge resistor', 'leads round an isolation relay');
    }
  }

  const bridged = new Set<WirePart>();
  for (const [relay, round] of bridges) {
    if (round.some((part) => prechargeRelays.has(part) || prechargeResistors.has(part))) bridged.add(relay);
  }
  return { isolationRelays, prechargeRelays, prechargeResistors, bridged, contradictions };
}

function roleOf({ element }: WirePart): string | undefined {
  return element.kind === 'contact' || element.kind === 'resistor' ? element.role : undefined;
}

function partsRound(wiring: Wiring, relay: WirePart, isolation: number, conducts: Conducts): WirePart[] {
  return partsBetween(
    wiring,
    relay.a,
    relay.b,
    (part) => (part === relay ? Infinity : conducts(part)),
    isolation,
    (node) => node.level < 0 || node.level === relay.a.level,
  );
}
