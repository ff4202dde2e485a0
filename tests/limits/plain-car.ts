import { readCircuit } from '../../src/circuit/read-circuit.js';
import type { ResolvedCircuit } from '../../src/circuit/model.js';
import type { Conditions } from '../../src/facts/conditions.js';
import { createFacts } from '../../src/facts/create-facts.js';
import type { Facts } from '../../src/facts/facts.js';
import { computeLimits } from '../../src/limits/index.js';
import type { LimitRecord } from '../../src/limits/index.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';

type Fields = Readonly<Record<string, unknown>>;

/** ± a relative tolerance; 0: exact. */
export function q(nominal: number, tolerance = 0): Fields {
  return { nominal, tolerance };
}

const relay = {
  kind: 'contact',
  zone: 'container',
  role: 'isolation-relay',
  rest: 'open',
  construction: 'electromechanical',
  suppliedBy: 'shutdown-circuit',
  releaseTime: 0,
  ratings: { dcVoltage: 900, makingCurrent: 500, breakingCurrent: 2000, carryingCurrent: 300 },
};

const rated = {
  technology: 'film',
  ratings: { power: 100, fullPowerUpTo: 70, zeroPowerAt: 200, overload: { factor: 5, duration: 5 } },
};

/**
 * Nothing but what the textbook formulas have: 600 V from a source without resistance, 1 kΩ into 500 µF, a load of 47 kΩ while
 * it charges, 2.2 kΩ to discharge it, every value exact, relays that open at once.
 */
const parts: Readonly<Record<string, Fields>> = {
  pack: { kind: 'accumulator', zone: 'container', nodes: ['bp', 'bn'], voltage: { min: 600, nominal: 600, max: 600 } },
  'air-pos': { ...relay, nodes: ['bp', 'lp'] },
  'air-neg': { ...relay, nodes: ['bn', 'ln'] },
  'pre-relay': {
    ...relay,
    role: 'precharge-relay',
    nodes: ['bp', 'pr'],
    ratings: { ...relay.ratings, makingCurrent: 2, breakingCurrent: 1.5, carryingCurrent: 3 },
  },
  'pre-resistor': {
    ...rated,
    kind: 'resistor',
    zone: 'container',
    role: 'precharge',
    nodes: ['pr', 'lp'],
    resistance: q(1000),
  },
  link: { kind: 'capacitor', zone: 'vehicle', nodes: ['lp', 'ln'], capacitance: q(500e-6) },
  'rise-load': {
    kind: 'load',
    zone: 'vehicle',
    nodes: ['lp', 'ln'],
    resistance: q(47_000),
    activeIn: ['precharge', 'drive'],
  },
  'dis-relay': { ...relay, role: 'discharge-relay', zone: 'vehicle', rest: 'closed', nodes: ['lp', 'dr'] },
  'dis-resistor': {
    ...rated,
    kind: 'resistor',
    zone: 'vehicle',
    role: 'discharge',
    nodes: ['dr', 'ln'],
    resistance: q(2200),
    ratings: { ...rated.ratings, power: 200 },
  },
  'point-pos': {
    kind: 'resistor',
    zone: 'vehicle',
    role: 'body-protection',
    technology: 'film',
    nodes: ['lp', 'mp'],
    resistance: q(15_000),
    ratings: { power: 6, fullPowerUpTo: 70, zeroPowerAt: 200 },
  },
  'point-neg': {
    kind: 'resistor',
    zone: 'vehicle',
    role: 'body-protection',
    technology: 'film',
    nodes: ['ln', 'mn'],
    resistance: q(15_000),
    ratings: { power: 6, fullPowerUpTo: 70, zeroPowerAt: 200 },
  },
};

export interface PlainCar {
  /** By id: fields to be changed, a new part, or null to leave it out. */
  readonly parts?: Readonly<Record<string, Fields | null>>;
  readonly precharge?: Fields;
  readonly ruleset?: string;
  readonly conditions?: Partial<Conditions>;
}

export function plainCircuit({ parts: changes = {}, precharge = {} }: PlainCar = {}): ResolvedCircuit {
  const ids = [...new Set([...Object.keys(parts), ...Object.keys(changes)])];
  const elements = ids.filter((id) => changes[id] !== null).map((id) => ({ id, ...parts[id], ...changes[id] }));
  const reading = readCircuit(
    {
      elements,
      link: ['lp', 'ln'],
      measuringPoints: { positive: 'mp', negative: 'mn' },
      ambient: { max: 40 },
      control: {
        precharge: {
          method: 'voltage-comparison',
          threshold: 0.96,
          comparisonError: 0.005,
          timeout: 3,
          attempts: 1,
          ...precharge,
        },
      },
    },
    '#/circuit',
  );
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.circuit;
}

export function conditionsOf(ruleset: string): Conditions {
  const found = rulesetById(ruleset);
  if (found === undefined) throw new Error(`no ruleset ${ruleset}`);
  return found.conditions;
}

export function plainFacts(car: PlainCar = {}): Facts {
  return createFacts(plainCircuit(car), { ...conditionsOf(car.ruleset ?? 'student-ev-2026'), ...car.conditions });
}

/** The limit of that name on that part of the plain car. */
export function recordOf(car: PlainCar, name: string, element?: string): LimitRecord | undefined {
  return computeLimits(plainFacts(car)).limits.find((each) => each.name === name && each.element === element);
}

export function limitOf(car: PlainCar, name: string, element?: string): LimitRecord {
  const found = recordOf(car, name, element);
  if (found === undefined) throw new Error(`no ${name} on ${element ?? 'the circuit'}`);
  return found;
}
