import { type Element, elementById, type ResolvedCircuit, type Toleranced } from '../circuit/model.js';
import type { Conditions } from '../facts/conditions.js';

export type PartUnit = 'Ω' | 'F' | 'W';

/** A part whose value a limit bounds. */
export interface BoundedPart {
  readonly id: string;
  readonly unit: PartUnit;
  /** The present nominal. */
  readonly present: number;
  /** Its own relative tolerance towards larger and smaller values: as stated, else as the ruleset assumes. */
  readonly upward: number;
  readonly downward: number;
}

/** The end of a part's own range that a bound is about. */
export function worstOf({ present, upward, downward }: BoundedPart, bound: 'min' | 'max'): number {
  return present * (bound === 'max' ? 1 + upward : 1 - downward);
}

/** Within which a bound is looked for: what a description may hold, down to less than any part has. */
export const RANGES = {
  Ω: { lowest: 1e-6, highest: 1e12 },
  F: { lowest: 1e-15, highest: 1e3 },
  W: { lowest: 1e-9, highest: 1e9 },
} as const;

/** The part of that id, where its resistance, capacitance or constant power can be bounded. */
export function boundedPart(circuit: ResolvedCircuit, conditions: Conditions, id: string): BoundedPart | undefined {
  const element = elementById(circuit, id);
  const own = element === undefined ? undefined : valueOf(element, conditions);
  if (own === undefined) return undefined;
  const { value, unit, assumed } = own;
  const { nominal, min, max, toleranceStated } = value;
  const relative = (difference: number): number => (nominal > 0 ? difference / nominal : 0);
  return {
    id,
    unit,
    present: nominal,
    upward: toleranceStated ? relative(max - nominal) : assumed,
    downward: toleranceStated ? relative(nominal - min) : assumed,
  };
}

function valueOf(
  element: Element,
  { assumedTolerance }: Conditions,
): { readonly value: Toleranced; readonly unit: PartUnit; readonly assumed: number } | undefined {
  switch (element.kind) {
    case 'resistor':
      return { value: element.resistance, unit: 'Ω', assumed: assumedTolerance.resistor };
    case 'meter':
      return { value: element.resistance, unit: 'Ω', assumed: assumedTolerance.meter };
    case 'capacitor':
      return { value: element.capacitance, unit: 'F', assumed: assumedTolerance.capacitor };
    case 'load':
      if (element.power !== undefined) return { value: element.power, unit: 'W', assumed: 0 };
      return element.resistance === undefined ? undefined : { value: element.resistance, unit: 'Ω', assumed: 0 };
    default:
      return undefined;
  }
}
