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

/** Where the parts of a circuit stand in a request; the engine puts the circuit's own place in front. */
export const ANY_PART = '#/circuit/elements';

/** Codes of a figure that has no number because something is not stated, rather than because it never happens. */
const NOT_COMPUTABLE: ReadonlySet<string | undefined> = new Set(['not-stated', 'ideal-loop']);

/**
 * Three-way judgement of a figure: met where the worst value over all ranges, assumed tolerances included, keeps to the
 * bound; violated where it does not even with assumed tolerances left out; in between undetermined, naming the bare fields.
 * Undetermined also where all that a search found keeps to the bound, but not the end beyond which nothing lies (`gap`). A search
 * that nothing bounds counts like a proof.
 */
export function judgeFigure(figure: Figure, bound: Bound): Judgement {
  const end = bound.side === 'above' ? 'min' : 'max';
  const none = bound.side === 'above' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return judge(figure, bound, {
    worst: figure[end] ?? none,
    stated: figure.stated[end] ?? none,
    gap: figure.gap?.[end],
  });
}

/** The same for a duration that must stay below a limit; a corner that never gets there lasts without end. */
export function judgeTime(time: TimeFigure, limit: number, strict: boolean): Judgement {
  const worst = time.reached === 'always' ? (time.max ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  const stated =
    time.statedReached === 'always' ? (time.stated.max ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  return judge(time, { side: 'below', limit, strict }, { worst, stated, gap: time.gap?.max });
}

interface End {
  readonly worst: number;
  readonly stated: number;
  /** By how much the worst value lies beyond what was found. */
  readonly gap: number | null | undefined;
}

function judge(figure: Figure, bound: Bound, end: End): Judgement {
  const { worst, stated } = end;
  if (NOT_COMPUTABLE.has(figure.reason) && figure.nominal === null) {
    const missing = figure.missing ?? figure.bare;
    return { status: 'undetermined', missing, worst, stated, notComputable: true };
  }
  const common = { worst, stated, notComputable: false };
  if (keeps(worst, bound)) return { status: 'met', missing: [], ...common };
  if (keeps(foundOf(figure, bound, end), bound)) {
    // Where nothing was assumed the tolerances themselves are too wide for a search to end: any narrower one settles it.
    return { status: 'undetermined', missing: figure.bare.length > 0 ? figure.bare : [ANY_PART], ...common };
  }
  // With nothing assumed the worst value is a stated one, whatever rounding made of the two.
  if (!keeps(stated, bound) || figure.bare.length === 0) return { status: 'violated', missing: [], ...common };
  return { status: 'undetermined', missing: figure.bare, ...common };
}

/** The worst value that occurs for certain: between it and the worst nothing was found. */
function foundOf({ bound, bare }: Figure, { side }: Bound, { worst, stated, gap }: End): number {
  if (bound === 'proved' || gap === undefined) return worst;
  if (bare.length === 0) return stated;
  return side === 'above' ? worst + (gap ?? 0) : worst - (gap ?? 0);
}

function keeps(value: number, { side, limit, strict }: Bound): boolean {
  if (value === limit) return !strict;
  return side === 'above' ? value > limit : value < limit;
}
