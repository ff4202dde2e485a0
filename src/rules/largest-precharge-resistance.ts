import { elementById } from '../circuit/model.js';
import type { Facts } from '../facts/facts.js';
import type { Limit } from '../limits/limit.js';
import { judgeFigure } from './judge-figure.js';
import { largestPreferred } from './preferred-value.js';
import { relativeTolerance } from './relative-tolerance.js';

/** What a limit says of the pre-charge resistor of the rise, so that a remedy says the same as the limits beside it. */
export interface LargestResistance {
  /** Ω, a nominal; absent where no value helps, or none is known. */
  readonly bound?: number;
  /** True where no value of that resistor alone helps. */
  readonly hopeless: boolean;
}

export function largestPrechargeResistance(facts: Facts, { compute }: Limit): LargestResistance {
  const record = compute(facts).find(({ element }) => element === facts.rise.resistor);
  const hopeless = record?.outcome === 'no-value-helps';
  return typeof record?.nominal === 'number' ? { bound: record.nominal, hopeless } : { hopeless };
}

/**
 * The preferred value to advise below a bound: tried on the circuit itself, at the far end of the part's tolerance.
 * @param level the share of the accumulator's voltage above which the link must get with it
 */
export function preferredPrechargeResistance(facts: Facts, bound: number, level: number): number | undefined {
  const { resistor } = facts.rise;
  const part = resistor === undefined ? undefined : elementById(facts.circuit, resistor);
  if (part?.kind !== 'resistor') return undefined;
  const tolerance = relativeTolerance(part.resistance, facts.conditions.assumedTolerance.resistor);
  return largestPreferred(bound, (nominal) => {
    const ratio = facts.vary(part.id, nominal * (1 + tolerance)).rise.steadyRatio;
    return judgeFigure(ratio, { side: 'above', limit: level, strict: true }).status === 'met';
  });
}
