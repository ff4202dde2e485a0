import type { Contact } from '../circuit/model.js';

/** Why a contact in series with a discharge resistor cannot be relied upon to close; undefined where nothing stated is wrong. */
export function dischargeContactFault(contact: Contact): string | undefined {
  const faults = [
    ...(contact.rest === 'open' ? ['is open at rest'] : []),
    ...(contact.suppliedBy === 'independent'
      ? ['has a supply of its own, which the shutdown circuit does not cut']
      : []),
    ...(contact.suppliedBy === 'controller' ? ['is switched by a controller’s software'] : []),
  ];
  return faults.length === 0 ? undefined : `${contact.id} ${faults.join(' and ')}`;
}
