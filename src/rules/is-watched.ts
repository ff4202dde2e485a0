import type { Contact, ResolvedCircuit } from '../circuit/model.js';
import { elementsOf } from './elements-of.js';

/** True where the active light watches the contact, or another contact of the same relay, which moves together with it. */
export function isWatched(circuit: ResolvedCircuit, contact: Contact): boolean {
  const watched = elementsOf(circuit, circuit.indicator?.watches ?? [], 'contact');
  return watched.some(({ id, relay }) => id === contact.id || (relay !== undefined && relay === contact.relay));
}
