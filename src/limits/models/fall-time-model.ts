import type { FallVoltage } from '../../facts/facts.js';
import type { TimeFigure } from '../../facts/figure.js';
import { type BoundedPart, worstOf } from '../bounded-part.js';

/**
 * The time of a fall over what is allowed as its resistance or capacitance changes: in proportion, but for the release of the relays, which
 * one reading of the clock counts and the other does not. Textbook discharge.
 */
export function fallTimeModel(
  part: BoundedPart,
  { timeToLimit, timeToLimitOtherClock }: FallVoltage,
  timed: TimeFigure,
  allowed: number,
): ((value: number) => number) | undefined {
  const now = worstOf(part, 'max');
  if (timeToLimit.max === null || timeToLimitOtherClock.max === null || timed.max === null || !(now > 0))
    return undefined;
  const decay = Math.min(timeToLimit.max, timeToLimitOtherClock.max);
  const release = timed.max - decay;
  return (value) => (release + (decay * value) / now) / allowed;
}
