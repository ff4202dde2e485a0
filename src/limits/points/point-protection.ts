import { effectiveResistance } from '../../circuit/effective-resistance.js';
import { reachable } from '../../circuit/graph.js';
import type { Element, ResolvedCircuit, Resistor } from '../../circuit/model.js';
import { shareOfVoltage } from './share-of-voltage.js';

/** What stands between a measuring point and the circuit. */
export interface PointProtection {
  /** Ω, nominal. */
  readonly resistance: number;
  /** Each resistor of it with its share of the voltage across the whole. */
  readonly parts: ReadonlyArray<{ readonly resistor: Resistor; readonly share: number }>;
}

/**
 * The resistor behind a measuring point, or the several that are joined to one, in series or in parallel. Undefined where the
 * point hangs on anything else as well, a voltmeter aside: then a hand at the point is not behind it.
 */
export function pointProtection(circuit: ResolvedCircuit, point: string): PointProtection | undefined {
  const touching = circuit.elements.filter(({ nodes, kind }) => nodes.includes(point) && kind !== 'meter');
  const [only, ...others] = touching;
  if (only?.kind !== 'resistor' || !(others.length === 0 || touching.every(protects))) return undefined;
  const inside = (element: Element) => element === only || protects(element);
  const conducts = (element: Element) => (inside(element) ? resistanceOf(element) : undefined);
  const joined = reachable(circuit, point, conducts);
  const isEnd = (node: string) =>
    node !== point &&
    circuit.elements.some((element) => element.nodes.includes(node) && element.kind !== 'meter' && !inside(element));
  const ends = [...joined.keys()].filter(isEnd);
  const ohms = (node: string) => effectiveResistance(circuit, point, node, conducts);
  const [end] = ends.sort((a, b) => ohms(a) - ohms(b));
  // A resistor that ends nowhere protects all the same: its value is what can be told.
  const far = end ?? only.nodes.find((node) => node !== point);
  if (far === undefined) return undefined;
  const resistors = circuit.elements.filter(
    (element): element is Resistor => element.kind === 'resistor' && inside(element) && joined.has(element.nodes[0]),
  );
  const parts = resistors.map((resistor) => ({
    resistor,
    share: shareOfVoltage(circuit, conducts, [point, far], resistor.nodes),
  }));
  return { resistance: ohms(far), parts };
}

function protects(element: Element): boolean {
  return element.kind === 'resistor' && element.role === 'body-protection';
}

function resistanceOf(element: Element): number | undefined {
  return element.kind === 'resistor' ? element.resistance.nominal : undefined;
}
