import type { CompiledCircuit, Values } from '../../transient/compiled-circuit.js';
import { isConductor } from '../topology/is-conductor.js';

/**
 * The accumulators whose voltages add up between the outermost poles, and with which sign: those on one chain from the
 * negative to the positive pole with every contact closed. Strings in parallel: the first by order of id counts.
 */
export function accumulatorChain(
  compiled: CompiledCircuit,
  outermost: { readonly positive: string; readonly negative: string },
): { index: number; sign: 1 | -1 }[] {
  const from = compiled.nodes.get(outermost.negative);
  const to = compiled.nodes.get(outermost.positive);
  if (from === undefined || to === undefined) return [];
  const via = new Map<number, { element: number; from: number }>();
  const queue = [from];
  const seen = new Set(queue);
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    for (const element of compiled.elements) {
      if (element.kind !== 'accumulator' && !isConductor(element.source)) continue;
      const next = element.a === node ? element.b : element.b === node ? element.a : -1;
      if (next < 0 || seen.has(next)) continue;
      seen.add(next);
      via.set(next, { element: element.index, from: node });
      queue.push(next);
    }
  }
  const chain: { index: number; sign: 1 | -1 }[] = [];
  for (let node = to; node !== from; ) {
    const step = via.get(node);
    if (step === undefined) return [];
    const element = compiled.elements[step.element];
    if (element?.kind === 'accumulator') chain.push({ index: element.primary, sign: element.a === node ? 1 : -1 });
    node = step.from;
  }
  return chain.reverse();
}

/** V between the outermost poles. */
export function openCircuitVoltage(
  chain: readonly { readonly index: number; readonly sign: 1 | -1 }[],
  values: Values,
): number {
  return chain.reduce((sum, { index, sign }) => sum + sign * (values[index] as number), 0);
}
