import type { Figure, TimeFigure } from '../facts/figure.js';
import { foundOf, judgedEnds, judgeKept } from '../limits/judgement.js';

export interface Judgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  /** Pointers that would settle it; not empty where undetermined. */
  readonly missing: readonly string[];
  /** The worst value over all ranges; infinite where there is no bound or it is never reached. */
  readonly worst: number;
  /** The worst value with parts of unstated tolerance at nominal. */
  readonly stated: number;
  /** True where no number could be computed for want of `missing`. */
  readonly notComputable: boolean;
  /** Where the worst value is searched for, not proved. */
  readonly search?: Search;
}

/** The worst value that a search found, and the one beyond it that is judged by, since a search may miss something. */
export interface Search {
  readonly found: number;
  readonly judged: number;
}

export interface Bound {
  readonly side: 'above' | 'below';
  readonly limit: number;
  /** False where the limit itself will do. */
  readonly strict: boolean;
}

/**
 * Three-way judgement of a figure: met where the worst value over all ranges, assumed tolerances included, keeps to the
 * bound; violated where it does not even with assumed tolerances left out; in between undetermined, naming the bare fields.
 * Undetermined also where all that a search found keeps to the bound, but not the end beyond which nothing lies (`gap`), or where nothing
 * is known of that not with a margin (`judgedEnds`).
 */
export function judgeFigure(figure: Figure, bound: Bound): Judgement {
  const end = bound.side === 'above' ? 'min' : 'max';
  const none = bound.side === 'above' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return judge(figure, bound, {
    worst: figure[end] ?? none,
    judged: judgedEnds(figure)[end] ?? none,
    found: foundOf(figure)[end] ?? none,
    stated: figure.stated[end] ?? none,
  });
}

/** The same for a duration that must stay below a limit; a corner that never gets there lasts without end. */
export function judgeTime(time: TimeFigure, limit: number, strict: boolean): Judgement {
  const lasts = (reached: TimeFigure['reached'], max: number | null): number =>
    reached === 'always' ? (max ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  const stated = lasts(time.statedReached, time.stated.max);
  return judge(
    time,
    { side: 'below', limit, strict },
    {
      worst: lasts(time.reached, time.max),
      judged: lasts(time.reached, judgedEnds(time).max),
      found: foundOf(time) === time.stated ? stated : lasts(time.reached, foundOf(time).max),
      stated,
    },
  );
}

/** The worst value over all ranges, what it is judged by, the worst that occurs for certain, and that with assumed tolerances left out. */
interface End {
  readonly worst: number;
  readonly judged: number;
  readonly found: number;
  readonly stated: number;
}

const STATUS = { true: 'met', false: 'violated', null: 'undetermined' } as const;

function judge(figure: Figure, bound: Bound, { worst, judged, found, stated }: End): Judgement {
  const { satisfied, missing, notComputable } = judgeKept(figure, {
    worst: keeps(judged, bound),
    found: keeps(found, bound),
    stated: keeps(stated, bound),
  });
  const search = figure.bound === 'proved' || found === judged ? {} : { search: { found, judged } };
  return { status: STATUS[`${satisfied}`], missing, worst, stated, notComputable, ...search };
}

function keeps(value: number, { side, limit, strict }: Bound): boolean {
  if (value === limit) return !strict;
  return side === 'above' ? value > limit : value < limit;
}
