import type { Search } from './judge-figure.js';
import type { Evidence } from './rule.js';

/** What a value is held against. `side`: where it has to lie. */
export interface Measured {
  readonly actual: number;
  readonly limit: number;
  readonly side: 'above' | 'below';
  /** SI; `ratio` for a share. */
  readonly unit: string;
  readonly search?: Search | undefined;
}

/**
 * The numbers of a judgement as evidence: `margin` is relative to the limit and positive where the value keeps to it; null
 * where there is no number (without limit, never). Of a value that was searched for also what was `found`, and what is `judged`.
 */
export function measuredAgainst({ actual, limit, side, unit, search }: Measured): Evidence {
  const margin = marginOf({ actual, limit, side });
  const searched = search === undefined ? {} : { found: finite(search.found), judged: finite(search.judged) };
  return { actual: finite(actual), limit: finite(limit), margin: finite(margin), unit, ...searched };
}

/** Of several judgements the one with the least margin; nothing where there is none. */
export function closest(all: readonly Measured[]): Evidence {
  const [first, ...rest] = all;
  if (first === undefined) return {};
  return measuredAgainst(rest.reduce((least, each) => (marginOf(each) < marginOf(least) ? each : least), first));
}

/** −∞ where the value has no bound, so that it is the closest of all; +∞ where the limit has none. */
function marginOf({ actual, limit, side }: Omit<Measured, 'unit'>): number {
  const excess = side === 'above' ? actual - limit : limit - actual;
  if (Number.isNaN(excess)) return 0;
  return Number.isFinite(excess) ? excess / Math.abs(limit) : excess;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
