import type { Contact, ResolvedCircuit } from '../../circuit/model.js';
import type { Uncertain } from '../../transient/box.js';
import type { Conditions } from '../conditions.js';
import type { Topology } from '../facts.js';

/** A release time as one more parameter behind those of the circuit. */
export interface ReleaseParameter {
  readonly contact: string;
  /** Whether it is an isolation or pre-charge relay (it ends the feeding) or a discharge contact (it begins the fall). */
  readonly role: 'isolates' | 'discharges';
  readonly pointer: string;
  readonly nominal: number;
  readonly uncertain?: Omit<Uncertain, 'index'>;
}

/**
 * Release times that a fall depends on. Not stated: 0 for the nominal, up to the ruleset's longest delay for the worst case.
 */
export function releaseParameters(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
): ReleaseParameter[] {
  const isolating = new Set([...topology.isolationRelays, ...topology.prechargeRelays]);
  const contacts = circuit.elements.filter((element): element is Contact => element.kind === 'contact');
  return contacts.flatMap((contact): ReleaseParameter[] => {
    const isolates = isolating.has(contact.id);
    const discharges =
      !isolates &&
      contact.rest === 'closed' &&
      contact.suppliedBy !== 'independent' &&
      contact.suppliedBy !== 'controller';
    if (!isolates && !discharges) return [];
    return [
      {
        contact: contact.id,
        role: isolates ? 'isolates' : 'discharges',
        pointer: `${contact.pointer}/releaseTime`,
        nominal: contact.releaseTime ?? 0,
        ...(contact.releaseTime === undefined
          ? { uncertain: { low: 0, high: conditions.maximumReleaseTime, assumed: true } }
          : {}),
      },
    ];
  });
}
