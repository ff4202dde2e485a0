import type { CompiledCircuit, Modes, Values } from './compiled-circuit.js';
import { graphEdges } from './graph-edges.js';
import { planOf } from './plan-of.js';
import type { GraphEdge } from './series-parallel.js';

/**
 * Whether all that the accumulators do to the capacitors goes through one node besides one that the capacitors have in common.
 *
 * Seen from those two nodes the accumulators and what lies with them are one source behind one resistance (Thévenin), so empty
 * capacitors are all charged towards its sign, and with resistances alone between them none of their voltages ever falls.
 *
 * @param values positive wherever they may be
 */
export function fedAtOneNode(compiled: CompiledCircuit, values: Values, modes: Modes): boolean {
  // A pack without resistance would make one node of its two poles, which stand at two potentials.
  const apart = values.slice();
  for (const { kind, secondary } of compiled.elements)
    if (kind === 'accumulator' && apart[secondary] === 0) apart[secondary] = 1;
  const { holding, capacitors, merged } = planOf(compiled, modes, apart);
  const common = holding.length === 1 ? holding[0]?.common : undefined;
  if (common === undefined) return false;
  const held = new Set(capacitors.flatMap(({ ma, mb }) => [ma, mb]).filter((node) => node !== common));
  const present = graphEdges(compiled, modes);
  const edges = present.map(({ a, b }) => ({ a: merged[a] as number, b: merged[b] as number }));
  const poles = present.flatMap(({ kind }, k) => {
    const edge = edges[k];
    return kind === 'accumulator' && edge !== undefined ? [edge.a, edge.b] : [];
  });
  const gates = new Set(edges.flatMap(({ a, b }) => [a, b]).filter((node) => node !== common));
  return [...gates].some((gate) => !reaches(edges, poles, held, new Set([common, gate])));
}

/** Whether a way leads from some nodes to others round those that are closed. */
function reaches(
  edges: readonly GraphEdge[],
  from: readonly number[],
  to: ReadonlySet<number>,
  closed: ReadonlySet<number>,
): boolean {
  const queue = from.filter((node) => !closed.has(node));
  const seen = new Set(queue);
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (to.has(node)) return true;
    for (const { a, b } of edges) {
      const next = a === node ? b : b === node ? a : node;
      if (seen.has(next) || closed.has(next)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return false;
}
