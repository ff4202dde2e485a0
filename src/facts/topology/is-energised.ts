import type { Contact } from '../../circuit/model.js';

/**
 * True where a discharge relay or other contact is energised as soon as the shutdown circuit closes: fed by it, also by
 * way of a controller, or its supply not stated. A contact with a supply of its own stays at rest unless it is named.
 */
export function isEnergised(contact: Contact): boolean {
  return contact.suppliedBy !== 'independent';
}
