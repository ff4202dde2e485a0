import { crossings } from '../../transient/crossings.js';
import type { Piece } from '../../transient/piecewise.js';

/**
 * The smallest |signal| over [from, until]. It lies at an end of a segment, at a turning point (a root of the slope), or is 0
 * where the signal changes sign or has no value.
 * @param scale the size of the signal that tolerances are relative to, > 0
 */
export function smallestSize(pieces: readonly Piece[], from: number, until: number, scale: number): number {
  let smallest = Infinity;
  for (const { start, end, signal } of pieces) {
    if (end < from || start > until) continue;
    if (signal === undefined) return 0;
    const first = Math.max(0, from - start);
    const last = Math.min(end, until) - start;
    const within = (time: number): boolean => time >= first && time <= last;
    if (crossings(signal, 0, last, scale).some(({ time, direction }) => within(time) && direction !== 0)) return 0;
    const slope = signal.derivative();
    const turns = crossings(slope, 0, last, Math.max(slope.size(), Number.MIN_VALUE)).map(({ time }) => time);
    const ends = [signal.at(first), last === Infinity ? signal.limit() : signal.at(last)];
    const values = [...ends, ...turns.filter(within).map((time) => signal.at(time))];
    smallest = Math.min(smallest, ...values.map(Math.abs));
  }
  return smallest === Infinity ? 0 : smallest;
}
