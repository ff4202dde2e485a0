import type { Figure, TimeFigure } from '../facts/figure.js';
import type { Allowance } from './ratings/allowance.js';

/** Whether the present circuit keeps a limit: null where what is not stated decides, and then `missing` says what. */
export interface Judgement {
  readonly satisfied: boolean | null;
  readonly missing: readonly string[];
  /** True where no number could be computed for want of `missing`. */
  readonly notComputable: boolean;
}

const MET: Judgement = { satisfied: true, missing: [], notComputable: false };
const VIOLATED: Judgement = { satisfied: false, missing: [], notComputable: false };

/** Undetermined for want of the fields named. */
export function undetermined(missing: readonly string[]): Judgement {
  return { satisfied: null, missing, notComputable: false };
}

/** A figure that must stay above a level, the level itself not being enough. */
export function judgeAbove(figure: Figure, level: number): Judgement {
  return judge(figure, (end) => (end.min ?? Number.NEGATIVE_INFINITY) > level);
}

/** A figure that must not exceed a level. */
export function judgeAtMost(figure: Figure, level: number): Judgement {
  return judge(figure, (end) => (end.max ?? Number.POSITIVE_INFINITY) <= level);
}

/** A duration that must stay below a limit, or may just reach it; one that never ends is longer than any. */
export function judgeTime(time: TimeFigure, limit: number, strict: boolean): Judgement {
  const keeps = (reached: TimeFigure['reached'], max: number | null): boolean =>
    reached === 'always' && max !== null && (max < limit || (max === limit && !strict));
  return judge(time, (end) => (end === time ? keeps(time.reached, end.max) : keeps(time.statedReached, end.max)));
}

/** A power against what a resistor stands surely and at most. */
export function judgePower(power: Figure, { atLeast, atMost, missing }: Allowance): Judgement {
  const sure = judgeAtMost(power, atLeast);
  if (sure.notComputable || sure.satisfied === true) return sure;
  const hopeless = judgeAtMost(power, atMost);
  if (hopeless.satisfied === false) return VIOLATED;
  return undetermined([...missing, ...sure.missing, ...hopeless.missing]);
}

/** Violated where any is, else undetermined where any is. */
export function judgeAll(judgements: readonly Judgement[]): Judgement {
  if (judgements.some(({ satisfied }) => satisfied === false)) return VIOLATED;
  const open = judgements.filter(({ satisfied }) => satisfied === null);
  if (open.length === 0) return MET;
  return {
    satisfied: null,
    missing: [...new Set(open.flatMap(({ missing }) => missing))],
    notComputable: open.some(({ notComputable }) => notComputable),
  };
}

/** Met over all ranges, assumed ones included; violated even with assumed ones left out; in between undetermined. */
function judge(figure: Figure, keeps: (end: Figure['stated']) => boolean): Judgement {
  if (figure.nominal === null && (figure.reason === 'not-stated' || figure.reason === 'ideal-loop')) {
    return { satisfied: null, missing: figure.missing ?? figure.bare, notComputable: true };
  }
  if (keeps(figure)) return MET;
  return !keeps(figure.stated) || figure.bare.length === 0 ? VIOLATED : undetermined(figure.bare);
}
