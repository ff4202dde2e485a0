import type { Figure, TimeFigure } from '../facts/figure.js';

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
}

export interface Bound {
  readonly side: 'above' | 'below';
  readonly limit: number;
  /** False where the limit itself will do. */
  readonly strict: boolean;
}

/** Codes of a figure that has no number because something is not stated, rather than because it never happens. */
const NOT_COMPUTABLE: ReadonlySet<string | undefined> = new Set(['not-stated', 'ideal-loop']);

/**
 * Three-way judgement of a figure: met where the worst value over all ranges, assumed tolerances included, keeps to the
 * bound; violated where it does not even with assumed tolerances left out; in between undetermined, naming the bare fields.
 * A bound found by search counts like a proved one.
 */
export function judgeFigure(figure: Figure, bound: Bound): Judgement {
  const end = bound.side === 'above' ? 'min' : 'max';
  const none = bound.side === 'above' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return judge(figure, bound, figure[end] ?? none, figure.stated[end] ?? none);
}

/** The same for a duration that must stay below a limit; a corner that never gets there lasts without end. */
export function judgeTime(time: TimeFigure, limit: number, strict: boolean): Judgement {
  const worst = time.reached === 'always' ? (time.max ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  const stated =
    time.statedReached === 'always' ? (time.stated.max ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  return judge(time, { side: 'below', limit, strict }, worst, stated);
}

function judge(figure: Figure, bound: Bound, worst: number, stated: number): Judgement {
  if (NOT_COMPUTABLE.has(figure.reason) && figure.nominal === null) {
    const missing = figure.missing ?? figure.bare;
    return { status: 'undetermined', missing, worst, stated, notComputable: true };
  }
  const common = { worst, stated, notComputable: false };
  if (keeps(worst, bound)) return { status: 'met', missing: [], ...common };
  // With nothing assumed the worst value is a stated one, whatever rounding made of the two.
  if (!keeps(stated, bound) || figure.bare.length === 0) return { status: 'violated', missing: [], ...common };
  return { status: 'undetermined', missing: figure.bare, ...common };
}

function keeps(value: number, { side, limit, strict }: Bound): boolean {
  if (value === limit) return !strict;
  return side === 'above' ? value > limit : value < limit;
}
