import type { Conditions } from '../facts/conditions.js';
import type { FallVoltage } from '../facts/facts.js';
import { type Judgement, judgeAll, judgeTime, undetermined } from './judgement.js';

const CLOCK_POINTER = '#/event/parameters/dischargeClock';

/** One voltage against the discharge time: by the ruleset's clock, or by both readings of it where the book leaves that open. */
export function judgeFallTime(
  { timeToLimit, timeToLimitOtherClock }: FallVoltage,
  { dischargeTime, dischargeTimeStrict, dischargeClockSettled = true }: Conditions,
): Judgement {
  const own = judgeTime(timeToLimit, dischargeTime, dischargeTimeStrict);
  if (dischargeClockSettled || own.notComputable) return own;
  const other = judgeTime(timeToLimitOtherClock, dischargeTime, dischargeTimeStrict);
  if ((own.satisfied === false) === (other.satisfied === false)) return judgeAll([own, other]);
  // Only one reading fails: which of them counts decides.
  return undetermined([CLOCK_POINTER, ...own.missing, ...other.missing]);
}
