import type { Directory, DirectoryEntry } from '../directory.js';
import type { Fault } from '../fault.js';
import { makeFault } from '../make-fault.js';
import { childPointer } from '../pointer.js';
import { quoted, quotedList } from '../quoted.js';

/**
 * Contacts of one relay move together, and a step moves only what it names: so a step that names one contact of a relay
 * names all, and each in the direction that the coil moves it (one that is open at rest closes as one that is closed at
 * rest opens). One fault for each relay that a step takes apart, at the first of its contacts that the step names.
 */
export function relayFaults(
  close: readonly unknown[],
  open: readonly unknown[],
  place: string,
  directory: Directory,
): Fault[] {
  const named = [
    ...close.map((id, index) => ({ id, closes: true, pointer: childPointer(place, 'close', index) })),
    ...open.map((id, index) => ({ id, closes: false, pointer: childPointer(place, 'open', index) })),
  ];
  const faults: Fault[] = [];
  const judged = new Set<string>();
  for (const { id, pointer } of named) {
    const relay = typeof id === 'string' ? directory.elements.get(id)?.relay : undefined;
    if (relay === undefined || judged.has(relay)) continue;
    judged.add(relay);
    const members = [...directory.elements.values()].filter((element) => element.relay === relay);
    const left = members.filter((member) => !named.some((move) => move.id === member.id));
    if (left.length > 0) {
      const ids = left.map((member) => member.id).sort();
      const detail = `${quoted(id)} moves together with ${quotedList(ids, 'and')} (relay ${quoted(relay)}); the step must name all of them.`;
      faults.push(makeFault(pointer, 'relay-split', detail));
      continue;
    }
    const coils = new Set(
      named.flatMap((move) => {
        const member = members.find((candidate) => candidate.id === move.id);
        return member?.rest === undefined ? [] : [isEnergised(member, move.closes)];
      }),
    );
    if (coils.size > 1) {
      const ids = members.map((member) => member.id).sort();
      const detail = `${quotedList(ids, 'and')} move together (relay ${quoted(relay)}); the step has some at rest and some not.`;
      faults.push(makeFault(pointer, 'relay-split', detail));
    }
  }
  return faults;
}

function isEnergised(member: DirectoryEntry, closes: boolean): boolean {
  return closes !== (member.rest === 'closed');
}
