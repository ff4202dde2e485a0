import type { Values } from './compiled-circuit.js';
import type { StatePlan } from './state-plan.js';

/** A way from one merged node to another. */
export interface Way {
  readonly from: number;
  readonly to: number;
  /** A node that it keeps off. */
  readonly avoided?: number;
  /** True where it may lead through accumulators, whose own resistance does not count. */
  readonly throughAccumulators?: boolean;
}

/** The parameters of the resistances on the way of least resistance, and their sum, Ω (Dijkstra's method); undefined: there is none. */
export function leastPath(
  { branches, size }: StatePlan,
  ohms: Values,
  { from, to, avoided = -1, throughAccumulators = false }: Way,
): { readonly parameters: readonly number[]; readonly ohms: number } | undefined {
  const distance = new Array<number>(size).fill(Number.POSITIVE_INFINITY);
  const via = new Array<{ readonly parameter: number | undefined; readonly node: number } | undefined>(size).fill(
    undefined,
  );
  const done = new Set<number>([avoided]);
  distance[from] = 0;
  for (;;) {
    let node = -1;
    distance.forEach((each, k) => {
      if (!done.has(k) && each < (distance[node] ?? Number.POSITIVE_INFINITY)) node = k;
    });
    if (node < 0) return undefined;
    if (node === to) break;
    done.add(node);
    for (const { element, ma, mb, resistance } of branches) {
      const next = ma === node ? mb : mb === node ? ma : -1;
      const source = element.kind === 'accumulator';
      if (next < 0 || element.kind === 'machine' || (source && !throughAccumulators)) continue;
      const length = (distance[node] as number) + (source ? 0 : (ohms[resistance] as number));
      if (length >= (distance[next] as number)) continue;
      distance[next] = length;
      via[next] = { parameter: source ? undefined : resistance, node };
    }
  }
  const parameters: number[] = [];
  for (let node = to; node !== from; ) {
    const step = via[node];
    if (step === undefined) return undefined;
    if (step.parameter !== undefined) parameters.push(step.parameter);
    node = step.node;
  }
  return { parameters, ohms: distance[to] as number };
}
