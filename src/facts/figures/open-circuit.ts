import type { CompiledCircuit, Values } from '../../transient/compiled-circuit.js';
import type { Topology } from '../facts.js';
import { isConductor } from '../topology/is-conductor.js';

/**
 * The accumulators whose voltages add up between the outermost poles, and with which sign: those on one chain from the
 * negative to the positive pole with every contact closed. Of strings in parallel the one that charges the link counts, so
 * that the rise is measured against its own source; where none does, the first by order of id.
 */
export function accumulatorChain(
  compiled: CompiledCircuit,
  { outermost, prechargePath }: Pick<Topology, 'outermost' | 'prechargePath'>,
): { index: number; sign: 1 | -1 }[] {
  const charging = chargingAccumulators(compiled, prechargePath);
  const own = chainOf(compiled, outermost, (id) => charging.has(id));
  return own.length > 0 ? own : chainOf(compiled, outermost, () => true);
}

/** Accumulators both of whose ends are touched by the elements that carry the rise, or by other accumulators. */
function chargingAccumulators(compiled: CompiledCircuit, path: readonly string[]): ReadonlySet<string> {
  const carrying = new Set(path);
  const touched = (own: string, node: number): boolean =>
    compiled.elements.some(
      ({ id, kind, a, b }) => id !== own && (a === node || b === node) && (carrying.has(id) || kind === 'accumulator'),
    );
  const accumulators = compiled.elements.filter(({ kind }) => kind === 'accumulator');
  return new Set(accumulators.filter(({ id, a, b }) => touched(id, a) && touched(id, b)).map(({ id }) => id));
}

function chainOf(
  compiled: CompiledCircuit,
  outermost: Topology['outermost'],
  counts: (accumulator: string) => boolean,
): { index: number; sign: 1 | -1 }[] {
  const from = compiled.nodes.get(outermost.negative);
  const to = compiled.nodes.get(outermost.positive);
  if (from === undefined || to === undefined) return [];
  const via = new Map<number, { element: number; from: number }>();
  const queue = [from];
  const seen = new Set(queue);
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    for (const element of compiled.elements) {
      if (element.kind === 'accumulator' ? !counts(element.id) : !isConductor(element.source)) continue;
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
