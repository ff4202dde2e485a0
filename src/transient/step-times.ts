import { firstAtOrAbove } from './crossings.js';
import type { ExponentialSum } from './exponential-sum.js';

/** s until |signal| is at or above the level; undefined: not within `until`. */
export function timeToRise(signal: ExponentialSum, level: number, until: number, scale: number): number | undefined {
  const rising = firstAtOrAbove(signal, level, until, Math.max(scale, 1e-9)) ?? Infinity;
  const mirrored = firstAtOrAbove(signal.times(-1), level, until, Math.max(scale, 1e-9)) ?? Infinity;
  const first = Math.min(rising, mirrored);
  return first === Infinity ? undefined : first;
}

/** s until |signal| is at or below the level; undefined: not within `until`. */
export function timeToFall(signal: ExponentialSum, level: number, until: number, scale: number): number | undefined {
  const start = signal.at(0);
  if (Math.abs(start) <= level * (1 + 1e-15)) return 0;
  return firstAtOrAbove(start > 0 ? signal.times(-1) : signal, -level, until, Math.max(scale, 1e-9));
}
