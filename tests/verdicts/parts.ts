import { change, type Circuit, type Part, type Wire } from './wire.js';

/** °C at every resistor, and where its rating holds in full and ends: the form of a derating line (MIL-PRF-39009, from memory). */
export const AMBIENT = 60;
const FULL_UP_TO = 25;
const ZERO_AT = 250;

/** Share of its rating that a resistor keeps at `AMBIENT`. */
export const DERATED = (ZERO_AT - AMBIENT) / (ZERO_AT - FULL_UP_TO);
/** A wirewound's overload: so many times its rating for so many seconds. */
export const OVERLOAD = { factor: 5, duration: 5 };

export function about(nominal: number, tolerance: number): Wire {
  return { nominal, tolerance };
}

/** Three significant digits. */
export function rounded(value: number): number {
  return Number(value.toPrecision(3));
}

/** W that the rating of a part is rounded up to. */
export function ratingFor(watts: number): number {
  return Math.max(5, Math.ceil(watts / 5) * 5);
}

/** What a wirewound of a rated power is like: its thermal resistance takes it to its limit, 1.2 J/K for each watt. */
export function wirewound(watts: number): Wire {
  return {
    technology: 'wirewound',
    mounting: 'as-rated',
    ambientMax: AMBIENT,
    ratings: {
      power: watts,
      powerFreeAir: watts * 0.3,
      fullPowerUpTo: FULL_UP_TO,
      zeroPowerAt: ZERO_AT,
      voltage: 1500,
      overload: OVERLOAD,
    },
    thermal: { resistance: (ZERO_AT - FULL_UP_TO) / watts, capacitance: 1.2 * watts, maxTemperature: ZERO_AT },
    surroundings: { limitTemperature: 200, clearance: 0.02 },
  };
}

export function relay(id: string, role: string, nodes: [string, string], more: Wire = {}): Part {
  return {
    id,
    kind: 'contact',
    nodes,
    zone: 'container',
    role,
    rest: 'open',
    construction: 'electromechanical',
    suppliedBy: 'shutdown-circuit',
    relay: `coil-${id}`,
    auxiliary: 'mirror',
    auxiliaryContact: 'normally-closed',
    resistance: about(0.0003, 0.2),
    operateTime: 0.025,
    releaseTime: 0.03,
    ratings: { dcVoltage: 900, makingCurrent: 650, breakingCurrent: 2000, carryingCurrent: 250 },
    ...more,
  };
}

export function resistor(id: string, role: string, nodes: [string, string], ohms: number, watts: number): Part {
  return {
    id,
    kind: 'resistor',
    nodes,
    zone: 'vehicle',
    role,
    resistance: about(ohms, role === 'body-protection' ? 0.01 : 0.05),
    ...wirewound(watts),
  };
}

export function meter(id: string, role: string, nodes: [string, string], ohms: number): Part {
  return { id, kind: 'meter', nodes, zone: 'vehicle', role, resistance: about(ohms, 0.01) };
}

export function plug(id: string, container: string, nodes: [string, string]): Part {
  return {
    id,
    kind: 'connector',
    nodes,
    zone: 'vehicle',
    separates: container,
    resistance: about(0.0002, 0.2),
    ratedVoltage: 1000,
  };
}

export function fuse(id: string, nodes: [string, string], more: Wire = {}): Part {
  return {
    id,
    kind: 'fuse',
    nodes,
    zone: 'vehicle',
    resistance: about(0.0006, 0.1),
    ratedCurrent: 160,
    ratedDcVoltage: 700,
    breakingCurrent: 20_000,
    ...more,
  };
}

/** A resistor of the circuit with another rated power, and the mass and the surface that go with it. */
export function underrated(circuit: Circuit, id: string, watts: number): Circuit {
  const { ratings, thermal } = wirewound(watts);
  return change(circuit, id, { ratings, thermal });
}
