import { elementById, type ResolvedCircuit, type Resistor, type Toleranced } from '../../circuit/model.js';
import type { Combination, Tolerances } from './combinations.js';
import { rangeOf } from './combinations.js';
import { replaced } from './replaced.js';
import type { StockPart } from './stock-part.js';

/** A circuit with parts from the stock in the place of a resistor, and what they are called in it. */
export interface Refitted {
  readonly circuit: ResolvedCircuit;
  /** The first has the name of the part that it replaces. */
  readonly parts: readonly string[];
}

/** The circuit with a combination built in, each part an element of its own. */
export function withParts(
  circuit: ResolvedCircuit,
  element: string,
  { use, parts }: Combination,
  stock: readonly StockPart[],
  tolerances: Tolerances,
): Refitted {
  const place = elementById(circuit, element);
  const [first, second] = parts.flatMap((index) => stock[index] ?? []);
  if (place?.kind !== 'resistor' || first === undefined) return { circuit, parts: [] };
  const [a, b] = place.nodes;
  const middle = unused(`${element} middle`, circuit.nodes);
  const fitted = (part: StockPart, id: string, nodes: Resistor['nodes']): Resistor => {
    const resistance: Toleranced = { ...rangeOf(part.resistance, tolerances), toleranceStated: true };
    return { ...replaced(place, { ...part, resistance }), id, nodes };
  };
  const other = unused(
    `${element} 2`,
    circuit.elements.map(({ id }) => id),
  );
  const added =
    second === undefined
      ? [fitted(first, element, [a, b])]
      : [
          fitted(first, element, use === 'series' ? [a, middle] : [a, b]),
          fitted(second, other, use === 'series' ? [middle, b] : [a, b]),
        ];
  return {
    circuit: {
      ...circuit,
      // In order of id, as every circuit is.
      elements: [...circuit.elements.filter(({ id }) => id !== element), ...added].sort((x, y) =>
        x.id < y.id ? -1 : 1,
      ),
      nodes: use === 'series' ? [...circuit.nodes, middle].sort() : circuit.nodes,
    },
    parts: added.map(({ id }) => id),
  };
}

function unused(name: string, taken: readonly string[]): string {
  return taken.includes(name) ? unused(`${name}'`, taken) : name;
}
