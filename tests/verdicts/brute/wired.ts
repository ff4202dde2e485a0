import type { Circuit, Part, Wire } from '../wire.js';
import type { Branch } from './dense.js';

type End = 'min' | 'nominal' | 'max';

/** Ω taken for what states no resistance or less: far below every resistor, far above what a double loses beside 2 MΩ. */
const LEAST = 1e-4;

/** One end of a quantity as posted. */
export function ohmsOf(value: unknown, end: End, otherwise = 0): number {
  if (value === undefined) return otherwise;
  if (typeof value === 'number') return value;
  const { nominal, tolerance, min, max } = value as Record<string, number>;
  if (tolerance !== undefined) {
    return nominal! * (end === 'min' ? 1 - tolerance : end === 'max' ? 1 + tolerance : 1);
  }
  return { min: min!, nominal: nominal!, max: max! }[end];
}

/** How a circuit is looked at. */
export interface View {
  /** Whether a contact, plug or disconnect is closed. */
  readonly closed: (part: Part) => boolean;
  /** Which end of an element's range to take. */
  readonly end?: (part: Part) => End;
  /** Accumulators drive (at this end of their voltage); else they are taken out. */
  readonly sources?: End;
  /** V on each capacitor, by id, behind its series resistance; a capacitor not named is taken out. */
  readonly charged?: ReadonlyMap<string, number>;
  /** Elements that have left the car or are cut. */
  readonly gone?: (part: Part) => boolean;
  /** Open contacts conduct by what they state. Default true. */
  readonly leakage?: boolean;
  /** Constant currents of loads active in the rise. */
  readonly loads?: boolean;
}

export function wired(circuit: Circuit, view: View): Branch[] {
  return circuit.elements.flatMap((part): Branch[] => branchOf(part, view) ?? []);
}

function branchOf(part: Part, view: View): Branch[] | undefined {
  const { id, nodes, kind } = part;
  const end = view.end?.(part) ?? 'nominal';
  const resistive = (ohms: number, volts = 0): Branch[] => [
    { id, a: nodes[0], b: nodes[1], siemens: 1 / Math.max(ohms, LEAST), volts },
  ];
  // Present, so that its nodes exist, but carrying nothing.
  const nothing: Branch[] = [{ id, a: nodes[0], b: nodes[1], siemens: 0, volts: 0 }];
  if (view.gone?.(part)) return nothing;
  switch (kind) {
    case 'resistor':
    case 'meter':
    case 'fuse':
      return resistive(ohmsOf(part['resistance'], end));
    case 'contact': {
      if (view.closed(part)) return resistive(ohmsOf(part['resistance'], end));
      const leak = part['openResistance'];
      return leak === undefined || view.leakage === false ? nothing : resistive(ohmsOf(leak, end));
    }
    case 'connector':
    case 'disconnect':
      return view.closed(part) ? resistive(ohmsOf(part['resistance'], end)) : nothing;
    case 'accumulator':
      return view.sources === undefined
        ? nothing
        : resistive(ohmsOf(part['resistance'], end), ohmsOf(part['voltage'], view.sources));
    case 'capacitor': {
      const volts = view.charged?.get(id);
      return volts === undefined ? nothing : resistive(ohmsOf(part['esr'], end), volts);
    }
    case 'load': {
      const active = ((part['activeIn'] as string[] | undefined) ?? ['precharge']).includes('precharge');
      const drawn = part['current'];
      if (!view.loads || !active || drawn === undefined) return nothing;
      return [{ id, a: nodes[0], b: nodes[1], siemens: 0, volts: 0, amperes: ohmsOf(drawn, end) }];
    }
    default:
      return nothing;
  }
}

export function ofKind(circuit: Circuit, kind: string): readonly Part[] {
  return circuit.elements.filter((part) => part.kind === kind);
}

export function prechargeControl(circuit: Circuit): Wire {
  return (circuit['control'] as Wire)['precharge'] as Wire;
}

/** Every combination of open and closed of some contacts, by id. */
export function* contactStates(contacts: readonly Part[]): Generator<ReadonlySet<string>> {
  for (let bits = 0; bits < 2 ** contacts.length; bits += 1) {
    yield new Set(contacts.filter((_, index) => (bits >> index) & 1).map(({ id }) => id));
  }
}
