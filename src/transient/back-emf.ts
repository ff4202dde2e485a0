import type { CompiledElement, Values } from './compiled-circuit.js';
import { ExponentialSum } from './exponential-sum.js';

const STILL: ReadonlyMap<number, number> = new Map();

/** e^(−t/decay) of each machine after it has coasted for so many s, by element index; undefined: they stand still. */
export function machineScale(
  elements: readonly CompiledElement[],
  coasted: number | undefined,
): ReadonlyMap<number, number> {
  if (coasted === undefined) return STILL;
  const scale = new Map<number, number>();
  for (const { index, source } of elements) {
    if (source.kind === 'machine') scale.set(index, leftAfter(coasted, source.decay));
  }
  return scale;
}

/** V of a machine from now on. */
export function backEmf(element: CompiledElement, values: Values, coasted: number | undefined): ExponentialSum {
  if (element.source.kind !== 'machine' || coasted === undefined) return ExponentialSum.constant(0);
  const peak = values[element.primary] as number;
  const { decay } = element.source;
  return decay === undefined
    ? ExponentialSum.constant(peak)
    : new ExponentialSum([1 / decay], [peak * leftAfter(coasted, decay)]);
}

function leftAfter(coasted: number, decay: number | undefined): number {
  return decay === undefined ? 1 : Math.exp(-coasted / decay);
}
