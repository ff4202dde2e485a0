import type { Facts } from '../facts/facts.js';
import { type BoundedPart, boundedPart } from './bounded-part.js';

/** The resistors that the rise goes through. */
export function prechargeResistors(facts: Facts): readonly BoundedPart[] {
  const { prechargeResistors: ids, prechargePath } = facts.topology;
  return partsOf(
    facts,
    ids.filter((id) => prechargePath.includes(id)),
  );
}

export function dischargeResistors(facts: Facts): readonly BoundedPart[] {
  return partsOf(facts, facts.topology.dischargeResistors);
}

/** The capacitors on the car's side of the isolation relays. */
export function linkCapacitors(facts: Facts): readonly BoundedPart[] {
  return partsOf(facts, facts.topology.vehicleCapacitors);
}

function partsOf({ circuit, conditions }: Facts, ids: readonly string[]): readonly BoundedPart[] {
  return ids.map((id) => boundedPart(circuit, conditions, id)).filter((part) => part !== undefined);
}
