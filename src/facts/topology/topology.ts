import type { ResolvedCircuit } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { ConductingPath, Topology } from '../facts.js';
import { closingOrder } from './closing-order.js';
import { dischargeParts } from './discharge-parts.js';
import { isolationResistance } from './isolation-resistance.js';
import { loopPath } from './loop-path.js';
import { loopThroughAccumulators } from './loop-through-accumulators.js';
import { prechargePath } from './precharge-path.js';
import { relayRoles } from './relay-roles.js';
import { riseBound } from './rise-bound.js';
import { riseConducts } from './rise-conducts.js';
import { terminals } from './terminals.js';
import { vehicleCapacitors } from './vehicle-capacitors.js';
import { type WirePart, wiring } from './wiring.js';

/**
 * Who is who in the circuit: containers and poles, the relays and resistors by what they do, the order of closing and
 * the way the rise takes. Pure; a circuit without accumulator has empty names for its outermost poles.
 */
export function topology(circuit: ResolvedCircuit, conditions: Conditions): Topology {
  const wires = wiring(circuit);
  const isolation = isolationResistance(wires, conditions);
  const roles = relayRoles(wires, isolation);
  const capacitors = vehicleCapacitors(wires, new Set([...roles.isolationRelays, ...roles.prechargeRelays]));
  const discharge = dischargeParts(wires, roles, capacitors, isolation);
  const order = closingOrder(wires, roles, isolation);
  const rise = {
    closed: new Set([...order.completing, ...roles.prechargeRelays]),
    open: order.last,
  };
  const bypass = prechargeBypass();
  return {
    containers: containers(circuit),
    poles: terminals(wires).flatMap(({ pole, outermost }) => (outermost ? [pole] : [])),
    outermost: {
      positive: wires.outermost?.positive.name ?? '',
      negative: wires.outermost?.negative.name ?? '',
    },
    isolationRelays: ids(roles.isolationRelays),
    prechargeRelays: ids(roles.prechargeRelays),
    prechargeResistors: ids(roles.prechargeResistors),
    dischargeResistors: ids(discharge.dischargeResistors),
    dischargeContacts: ids(discharge.dischargeContacts),
    disconnects: circuit.elements.filter(({ kind }) => kind === 'disconnect').map(({ id }) => id),
    bridgedRelays: ids(order.last),
    completingRelays: ids(order.completing),
    vehicleCapacitors: ids(capacitors),
    prechargePath: prechargePath(wires, rise, riseBound(roles, isolation)).map(({ element }) => element.id),
    ...(bypass ? { prechargeBypass: bypass } : {}),
    contradictions: [...roles.contradictions, ...discharge.contradictions].sort((left, right) =>
      left.element < right.element ? -1 : left.element > right.element ? 1 : 0,
    ),
    zoneOfNode: (name) => {
      const touched = wires.nodeNamed(name)?.links.some(({ part }) => part.element.zone === 'vehicle');
      return touched ? 'vehicle' : 'container';
    },
  };

  /** With every pre-charge relay open, at the smallest values, meters included: what still drives current into the link. */
  function prechargeBypass(): ConductingPath | undefined {
    const state = {
      closed: order.completing,
      open: new Set([...order.last, ...roles.prechargeRelays]),
    };
    const conducts = riseConducts(wires, state, (value) => value.min, true);
    const loop = loopThroughAccumulators(wires, conducts, isolation);
    return loop && loopPath(loop);
  }
}

function ids(parts: Iterable<WirePart>): string[] {
  return [...parts].sort((left, right) => left.index - right.index).map(({ element }) => element.id);
}

function containers(circuit: ResolvedCircuit): string[] {
  const names = new Set<string>();
  for (const element of circuit.elements) {
    if (element.zone === 'container' || element.kind === 'accumulator') names.add(element.container);
    if (element.kind === 'connector') names.add(element.separates);
  }
  return [...names].sort();
}
