import type { Element, ResolvedCircuit, Toleranced } from '../../src/circuit/model.js';
import type { Conditions } from '../../src/facts/conditions.js';

/** Fields that carry the element's own name in a figure's `at`; an accumulator's resistance does not. */
const DEFINING = new Set(['resistance', 'capacitance', 'voltage', 'current', 'power', 'backEmf']);

/** A share this near to an end of its range is that end. */
const AT_END = 1e-9;

/**
 * A circuit described anew with every part at exactly one place in its range: what `Facts.at` does without describing it.
 * @param shares place in its range, −1 … 1, by element id, or id and field where not the defining one; others: nominal
 */
export function cornerCircuit(
  circuit: ResolvedCircuit,
  conditions: Conditions,
  shares: Readonly<Record<string, number>>,
): ResolvedCircuit {
  return { ...circuit, elements: circuit.elements.map((element) => placed(element, conditions, shares)) };
}

function placed(element: Element, conditions: Conditions, shares: Readonly<Record<string, number>>): Element {
  const fixed: Record<string, Toleranced | number> = {};
  for (const [field, value] of Object.entries(element) as ReadonlyArray<readonly [string, unknown]>) {
    if (!isToleranced(value)) continue;
    const plain = DEFINING.has(field) && !(element.kind === 'accumulator' && field === 'resistance');
    const share = shares[plain ? element.id : `${element.id}.${field}`];
    const exact = share === undefined ? value.nominal : valueAt(share, value, plain ? assumed(element, conditions) : 0);
    fixed[field] = { min: exact, nominal: exact, max: exact, toleranceStated: true };
  }
  const late = shares[`${element.id}.releaseTime`];
  // Not stated: anywhere from at once to the ruleset's longest delay.
  if (late !== undefined) fixed.releaseTime = (conditions.maximumReleaseTime * (1 + late)) / 2;
  return { ...element, ...fixed };
}

function valueAt(share: number, { min, nominal, max, toleranceStated }: Toleranced, tolerance: number): number {
  const low = toleranceStated ? min : nominal * (1 - tolerance);
  const high = toleranceStated ? max : nominal * (1 + tolerance);
  if (Math.abs(share - 1) < AT_END) return high;
  return Math.abs(share + 1) < AT_END ? low : (low + high) / 2 + (share * (high - low)) / 2;
}

function assumed({ kind }: Element, { assumedTolerance }: Conditions): number {
  return kind === 'resistor' || kind === 'capacitor' || kind === 'meter' ? assumedTolerance[kind] : 0;
}

function isToleranced(value: unknown): value is Toleranced {
  return typeof value === 'object' && value !== null && 'toleranceStated' in value;
}
