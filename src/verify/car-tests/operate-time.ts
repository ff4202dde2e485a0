import type { Contact } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';

/** s, the longest from the command to a contact's movement where it is not stated. */
const LONGEST_OPERATE_TIME = 0.05;

/** s until the last of some relays has moved. */
export function operateTime(
  { circuit }: Facts,
  ids: readonly string[],
): { readonly min: number; readonly max: number } {
  const contacts = circuit.elements.filter(
    (element): element is Contact => element.kind === 'contact' && ids.includes(element.id),
  );
  return {
    min: Math.max(0, ...contacts.map(({ operateTime: stated }) => stated ?? 0)),
    max: Math.max(0, ...contacts.map(({ operateTime: stated }) => stated ?? LONGEST_OPERATE_TIME)),
  };
}
