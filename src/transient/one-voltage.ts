import { actAsOne } from './act-as-one.js';
import type { CompiledCircuit, CompiledElement, Modes } from './compiled-circuit.js';
import { graphEdges } from './graph-edges.js';
import { joined } from './joined.js';
import type { Pair } from './sign-question.js';

/** The accumulators whose voltages add up to the open-circuit voltage, each by its parameter, and with which sign. */
export type Chain = ReadonlyArray<{ readonly index: number; readonly sign: 1 | -1 }>;

/**
 * Whether a state knows the accumulators' voltages by the sum of the chain alone: every current, the voltage across every element and
 * that of the pair are then what one accumulator with the open-circuit voltage would give, so all that holds of the only voltage
 * of a circuit (a scale of everything where every load is a resistance) holds of each of the chain, and none of the others counts.
 *
 * For two sources in series taking both away parts the graph in two. Lift all nodes of one part by a voltage d: the one source
 * then gives d more and the other d less for the same currents, and no element but these two spans the parts, nor does the
 * pair, which counts as an edge here. So a voltage may be moved from source to source, and with it all to the first. A source on no
 * loop, alone between two parts, only lifts the one against the other: it drives nothing, and must not be in the sum.
 */
export function oneVoltage(compiled: CompiledCircuit, modes: Modes, chain: Chain, pair: Pair): boolean {
  const accumulators = compiled.elements.filter(({ kind }) => kind === 'accumulator');
  // A single one is a scale wherever it stands.
  if (accumulators.length === 1) return true;
  const edges = [...graphEdges(compiled, modes), pair];
  const summed = (each: CompiledElement): boolean =>
    chain.some(({ index, sign }) => index === each.primary && sign === 1);
  const driving = accumulators.filter((each) => edges.includes(each) && joined(edges, [each], each.a, each.b));
  return driving.length === chain.length && driving.every(summed) && actAsOne(driving, edges);
}
