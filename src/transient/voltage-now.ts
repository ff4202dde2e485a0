import type { ExponentialSum } from './exponential-sum.js';

/** Relative to a signal's terms: what is left of 0 after rounding. */
const NOTHING = 1e-13;

/**
 * V across a load at the start of a state. What is 0 but for rounding goes by where it is heading, so that the load takes the
 * side of 0 that its voltage will be on; where it rests there it stays on the side that it was on.
 *
 * @param below whether the load has been taken as standing below 0
 */
export function voltageNow(signal: ExponentialSum, below: boolean): number {
  const volts = signal.at(0);
  if (isClear(volts, signal)) return volts;
  const slope = signal.derivative();
  const bend = slope.derivative();
  for (const course of [slope, bend]) {
    const heading = course.at(0);
    if (isClear(heading, course)) return heading > 0 ? 0 : -Number.MIN_VALUE;
  }
  return below ? -Number.MIN_VALUE : 0;
}

function isClear(value: number, of: ExponentialSum): boolean {
  return Math.abs(value) > Math.max(NOTHING * of.size(), of.noise);
}
