/** A part of the range of one parameter. */
export interface Span {
  readonly lowest: number;
  readonly highest: number;
}

/** Relative; a bound this near to what was seen is good enough. */
const CLOSE = 1e-3;
/** How often a part of the range is halved. */
const MOST_HALVINGS = 64;

/**
 * A bound that nothing over a range of one parameter lies beyond, by branch and bound: of the parts of the range the worst is halved until
 * hardly anything is left between its bound and what some single value was seen to do.
 *
 * @param boundIn what nothing in a part of the range lies beyond, and of a single value what it does; may be ±Infinity
 * @param wanted 1: the most; −1: the least
 */
export function worstOverRange(whole: Span, boundIn: (span: Span) => number, wanted: 1 | -1): number {
  const isWorse = (one: number, other: number): boolean => wanted * (one - other) > 0;
  const worse = (one: number, other: number): number => (isWorse(one, other) ? one : other);
  const valueAt = (place: number): number => boundIn({ lowest: place, highest: place });
  let parts = [{ span: whole, bound: boundIn(whole) }];
  let seen = worse(valueAt(whole.lowest), valueAt(whole.highest));
  for (let count = 0; count < MOST_HALVINGS; count += 1) {
    const gravest = parts.reduce((top, each) => (isWorse(each.bound, top.bound) ? each : top));
    if (!isWorse(gravest.bound, seen + wanted * CLOSE * Math.abs(seen))) return worse(gravest.bound, seen);
    const { lowest, highest } = gravest.span;
    const middle = (lowest + highest) / 2;
    seen = worse(valueAt(middle), seen);
    const halves = [
      { lowest, highest: middle },
      { lowest: middle, highest },
    ].map((span) => ({ span, bound: boundIn(span) }));
    parts = [...parts.filter((each) => each !== gravest), ...halves];
  }
  return parts.reduce((top, { bound }) => worse(bound, top), seen);
}
