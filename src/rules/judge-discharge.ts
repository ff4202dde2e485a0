import type { Facts, Fall, FallVoltage } from '../facts/facts.js';
import { type Judgement, judgeTime } from './judge-figure.js';
import type { Ruleset } from './ruleset.js';
import { worstFirst } from './worst-first.js';

export interface DischargeJudgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  readonly missing: readonly string[];
  readonly fall: Fall;
  readonly voltage: FallVoltage;
  /** By the ruleset's clock, and by the other reading of it. */
  readonly own: Judgement;
  readonly other: Judgement;
  /** True where only one of the two readings fails. */
  readonly clockDecides: boolean;
}

const CLOCK_POINTER = '#/event/parameters/dischargeClock';

/** One voltage against the ruleset's discharge time, by both readings of when the time starts to count. */
export function judgeFallVoltage(fall: Fall, voltage: FallVoltage, ruleset: Ruleset): DischargeJudgement {
  const { dischargeTime, dischargeTimeStrict, dischargeClockSettled = true } = ruleset.conditions;
  const own = judgeTime(voltage.timeToLimit, dischargeTime, dischargeTimeStrict);
  const other = judgeTime(voltage.timeToLimitOtherClock, dischargeTime, dischargeTimeStrict);
  const common = { fall, voltage, own, other };
  if (dischargeClockSettled || own.notComputable) {
    return { status: own.status, missing: own.missing, clockDecides: false, ...common };
  }
  const failing = [own, other].filter(({ status }) => status === 'violated').length;
  if (failing === 2) return { status: 'violated', missing: [], clockDecides: false, ...common };
  const missing = [...new Set([...own.missing, ...other.missing])];
  if (failing === 1)
    return { status: 'undetermined', missing: [CLOCK_POINTER, ...missing], clockDecides: true, ...common };
  return { status: missing.length > 0 ? 'undetermined' : 'met', missing, clockDecides: false, ...common };
}

/** Every voltage of every state that the ruleset names, the gravest first: violated before undetermined, slow before quick. */
export function judgeDischarge(
  { falls }: Pick<Facts, 'falls'>,
  ruleset: Ruleset,
  voltagesOf: (fall: Fall) => readonly FallVoltage[] = (fall) => fall.voltages,
): readonly DischargeJudgement[] {
  return falls
    .filter(({ required }) => required)
    .flatMap((fall) => voltagesOf(fall).map((voltage) => judgeFallVoltage(fall, voltage, ruleset)))
    .sort((a, b) => worstFirst(a, b) || byTime(b.own.worst, a.own.worst));
}

/** Infinite times are equal; their difference would be no number. */
function byTime(a: number, b: number): number {
  return a === b ? 0 : a - b;
}
