import type { Contact } from '../circuit/model.js';
import { createFacts } from '../facts/create-facts.js';
import type { Facts } from '../facts/facts.js';

/** The same car if some contacts, whose supply is not stated, were not fed by the shutdown circuit. */
export interface OtherSupply {
  readonly facts: Facts;
  readonly contacts: readonly Contact[];
  /** Rules that are about these contacts' supply themselves. */
  readonly causes: readonly string[];
}

/**
 * The computation takes a contact of unstated supply for one that the shutdown circuit feeds. What else it could be: with a
 * supply of its own an isolation relay stays closed, a discharge contact cannot be relied upon, and neither moves unless it is
 * named. First all that isolate, pre-charge and discharge together, which is the worst of them; then all others with them,
 * because of those nobody knows beforehand which way is the worse. Empty where every supply is stated.
 */
export function otherSupplies(facts: Facts): readonly OtherSupply[] {
  const { isolationRelays, prechargeRelays, dischargeContacts } = facts.topology;
  const unstated = facts.circuit.elements.filter(
    (element): element is Contact => element.kind === 'contact' && element.suppliedBy === undefined,
  );
  const relays = new Set([...isolationRelays, ...prechargeRelays]);
  const discharging = new Set(dischargeContacts);
  const working = unstated.filter(({ id }) => relays.has(id) || discharging.has(id));
  const sets = working.length === unstated.length ? [unstated] : [working, unstated];
  return sets
    .filter((contacts) => contacts.length > 0)
    .map((contacts) => ({
      facts: createFacts(independent(facts.circuit, new Set<string>(contacts.map(({ id }) => id))), facts.conditions),
      contacts,
      causes: [
        ...(contacts.some(({ id }) => relays.has(id)) ? ['precharge-supply'] : []),
        ...(contacts.some(({ id }) => discharging.has(id)) ? ['discharge-fail-safe'] : []),
      ],
    }));
}

function independent(circuit: Facts['circuit'], ids: ReadonlySet<string>): Facts['circuit'] {
  const elements = circuit.elements.map((element) =>
    element.kind === 'contact' && ids.has(element.id) ? { ...element, suppliedBy: 'independent' as const } : element,
  );
  return { ...circuit, elements };
}
