import { isOpen } from '../facts/figures/is-open.js';
import type { Figure, TimeFigure } from '../facts/figure.js';
import type { Allowance } from './ratings/allowance.js';

/** Whether the present circuit keeps a limit: null where what is not stated decides, and then `missing` says what. */
export interface Judgement {
  readonly satisfied: boolean | null;
  readonly missing: readonly string[];
  /** True where no number could be computed for want of `missing`. */
  readonly notComputable: boolean;
}

/** Where the parts of a circuit stand in a request; who knows the circuit puts its own place in front. */
export const ANY_PART = '#/circuit/elements';

export const MET: Judgement = { satisfied: true, missing: [], notComputable: false };
export const VIOLATED: Judgement = { satisfied: false, missing: [], notComputable: false };

/** Undetermined for want of the fields named. */
export function undetermined(missing: readonly string[]): Judgement {
  return { satisfied: null, missing, notComputable: false };
}

/** A figure that must stay above a level, the level itself not being enough. */
export function judgeAbove(figure: Figure, level: number): Judgement {
  return judgeEnd(figure, ({ min }) => (min ?? Number.NEGATIVE_INFINITY) > level);
}

/** A figure that must not exceed a level. */
export function judgeAtMost(figure: Figure, level: number): Judgement {
  return judgeEnd(figure, ({ max }) => (max ?? Number.POSITIVE_INFINITY) <= level);
}

/** A duration that must stay below a limit, or may just reach it; one that never ends is longer than any. */
export function judgeTime(time: TimeFigure, limit: number, strict: boolean): Judgement {
  const keeps = (reached: TimeFigure['reached'], max: number | null): boolean =>
    reached === 'always' && max !== null && (max < limit || (max === limit && !strict));
  const stated = keeps(time.statedReached, time.stated.max);
  return judgeKept(time, {
    worst: keeps(time.reached, judgedEnds(time).max),
    found: time.bare.length === 0 ? stated : keeps(time.reached, foundOf(time).max),
    stated,
  });
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

function judgeEnd(figure: Figure, keeps: (end: Figure['stated']) => boolean): Judgement {
  return judgeKept(figure, {
    worst: keeps(judgedEnds(figure)),
    found: keeps(foundOf(figure)),
    stated: keeps(figure.stated),
  });
}

/**
 * Of a search that nothing bounds, the share of all that the ranges were found to do (max − min) that it is given to have missed.
 *
 * A figure that went straight over the ranges would have its ends where the search begins, at the corner to which the single
 * effects point; what is missed is bent, and so of a higher order in the tolerances than what is found. Tried on 1200 figures of
 * random cars of which nothing is proved, against every corner and a search inside: nearly all were found to a thousandth of their
 * spread, the worst to 0.10 (tests/limits/search-margin.test.ts has some of them). The rest is for cars that were not drawn. Common practice, no source.
 */
const SEARCH_MARGIN = 0.25;

/** The ends that a figure is judged by: those beyond which nothing lies or, where nothing is known of that, what was found and a margin beyond it. */
export function judgedEnds(figure: Figure): Pick<Figure, 'min' | 'max'> {
  const { bound, gap, min, max } = figure;
  if (bound === 'proved') return { min, max };
  const found = foundOver(figure);
  const margin = found.min === null || found.max === null ? 0 : SEARCH_MARGIN * (found.max - found.min);
  const open = (end: 'min' | 'max'): boolean => (gap?.[end] ?? null) === null;
  return {
    min: min !== null && open('min') ? min - margin : min,
    max: max !== null && open('max') ? max + margin : max,
  };
}

/** The ends that occur for certain: between them and the outer ones a search has found nothing. */
export function foundOf(figure: Figure): Figure['stated'] {
  return figure.bound === 'searched' && figure.gap !== undefined && figure.bare.length === 0
    ? figure.stated
    : foundOver(figure);
}

/** The same over the ranges that were assumed, too. */
function foundOver({ gap, min, max }: Figure): Figure['stated'] {
  return { min: min === null ? null : min + (gap?.min ?? 0), max: max === null ? null : max - (gap?.max ?? 0) };
}

/** Whether a figure keeps to something with its outermost end, the one found, and the one without assumed tolerances. */
export interface Kept {
  readonly worst: boolean;
  readonly found: boolean;
  readonly stated: boolean;
}

/**
 * Met over all ranges, assumed ones included; violated even with assumed ones left out; in between undetermined, and so where only
 * a search without end would tell: any narrower tolerance settles that.
 */
export function judgeKept(figure: Figure, { worst, found, stated }: Kept): Judgement {
  if (isOpen(figure)) {
    return { satisfied: null, missing: figure.missing ?? figure.bare, notComputable: true };
  }
  if (worst) return MET;
  if (found && figure.bound !== 'proved') return undetermined(figure.bare.length > 0 ? figure.bare : [ANY_PART]);
  return !stated || figure.bare.length === 0 ? VIOLATED : undetermined(figure.bare);
}
