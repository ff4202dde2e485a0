import type { Direction } from './bounds.js';

/** The direction of what two effects make together: theirs where they agree or one is none; undefined where they pull apart, or one is not known. */
export function agreed(one: Direction, other: Direction): Direction {
  if (one === undefined || other === undefined || one * other < 0) return undefined;
  return one === 0 ? other : one;
}
