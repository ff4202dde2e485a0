/**
 * A computed quantity over a circuit's tolerances. `min` and `max` are taken over the stated ranges and, where a part
 * states no tolerance, over the assumed one; `stated` leaves those parts at their nominal values, and was found, not bounded. A rule is met where
 * even min/max hold, violated where `stated` fails, and in between undetermined: `bare` names the fields that would settle it.
 */
export interface Figure {
  /** null: unbounded or never (see `reached` of a time figure), or not computable (then `reason` says why). */
  readonly nominal: number | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly stated: { readonly min: number | null; readonly max: number | null };
  /** Pointers of the quantities whose tolerance or value is not stated and was assumed. */
  readonly bare: readonly string[];
  /** `proved`: nothing in the ranges lies beyond, and the ends are reached; `searched`: they come of a search, see `gap`. */
  readonly bound: 'proved' | 'searched';
  /**
   * How far each end may lie beyond what was found, in the figure's unit: where a number, nothing in the ranges lies beyond the
   * end; null: nothing bounds what the search may have missed, so that a judgement leaves a margin. Absent where proved.
   */
  readonly gap?: { readonly min: number | null; readonly max: number | null };
  /** Where the extremes lie: element id (and field where not its defining one, `c1.esr`) → fraction of its range, −1…1. */
  readonly at: { readonly min: Readonly<Record<string, number>>; readonly max: Readonly<Record<string, number>> };
  /** Why there is no number, as a code: `not-stated`, `no-path`, `ideal-loop`, `no-state-holds`, `never`. */
  readonly reason?: string;
  /** Pointers of the fields without which the figure cannot be computed (reasons `not-stated`, `ideal-loop`, `no-state-holds`). */
  readonly missing?: readonly string[];
}

/** A duration. null in `max` means never for some corner; `reached` tells how many corners reach it. */
export interface TimeFigure extends Figure {
  readonly reached: 'always' | 'sometimes' | 'never';
  /** The same for bare parts at nominal. */
  readonly statedReached: 'always' | 'sometimes' | 'never';
}
