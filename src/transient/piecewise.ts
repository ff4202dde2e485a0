import { crossings, firstAtOrAbove } from './crossings.js';
import { type ExponentialSum, integralOfProduct } from './exponential-sum.js';
import type { StateSolution } from './state-solution.js';
import { takenApart } from './taken-apart.js';
import type { Timeline } from './timeline.js';

/** Relative to the terms of a signal: what is left of a limit of 0 after rounding. */
const NOTHING = 1e-14;

/** A signal over a whole run: one sum of exponentials a segment, each counted from its own start. */
export interface Piece {
  /** s */
  readonly start: number;
  /** s; may be Infinity. */
  readonly end: number;
  /** undefined: the signal has no value there. */
  readonly signal: ExponentialSum | undefined;
}

/** A signal of a run, segment by segment; segments of no length are left out. */
export function piecesOf(timeline: Timeline, read: (solution: StateSolution) => ExponentialSum | string): Piece[] {
  return timeline.segments
    .filter(({ start, end }) => end > start)
    .map(({ start, end, solution }) => {
      const signal = read(solution);
      return { start, end, signal: typeof signal === 'string' ? undefined : signal };
    });
}

/** The first instant at which |signal| is at or above the level, s; Infinity: never. */
export function timeToReach(pieces: readonly Piece[], level: number, scale: number): number {
  for (const { start, end, signal } of pieces) {
    if (signal === undefined) continue;
    const up = firstAtOrAbove(signal, level, end - start, scale);
    const down = firstAtOrAbove(signal.times(-1), level, end - start, scale);
    const first = Math.min(up ?? Infinity, down ?? Infinity);
    if (first < Infinity) return start + first;
  }
  return Infinity;
}

/** The last instant at which |signal| is above the level, s; 0: it never is; Infinity: for ever. */
export function lastAbove(pieces: readonly Piece[], level: number, scale: number): number {
  for (const { start, end, signal } of [...pieces].reverse()) {
    if (signal === undefined) continue;
    const duration = end - start;
    const after = duration === Infinity ? signal.limit() : signal.at(duration);
    if (Math.abs(after) > level + scale * 1e-12) return end;
    const roots = [...crossings(signal, level, duration, scale), ...crossings(signal, -level, duration, scale)];
    const last = roots.reduce((latest, { time }) => Math.max(latest, time), -1);
    if (last >= 0) return start + last;
    if (Math.abs(signal.at(0)) > level) return end;
  }
  return 0;
}

/** The largest |signal| up to `until`, the first instant included. Turning points are roots of the slope, found like any other. */
export function largestSize(pieces: readonly Piece[], until: number): number {
  let largest = 0;
  for (const { start, end, signal } of pieces) {
    if (signal === undefined || (start >= until && start > 0)) continue;
    const duration = Math.min(end, until) - start;
    const first = Math.abs(signal.at(0));
    const last = Math.abs(duration === Infinity ? signal.limit() : signal.at(duration));
    largest = Math.max(largest, first, last);
    const slope = signal.derivative();
    const scale = Math.max(Math.abs(slope.at(0)), 1e-300);
    if (slope.rates.length + slope.driven.length < 2) continue;
    for (const { time } of crossings(slope, 0, duration, scale)) largest = Math.max(largest, Math.abs(signal.at(time)));
  }
  return largest;
}

/**
 * ∫ signal² dt up to `until`, e^(−κ(until − t)) weighing it where a kernel rate κ is given. Infinity where it never ends.
 */
export function integralOfSquare(pieces: readonly Piece[], until: number, kernel = 0): number {
  let sum = 0;
  for (const { start, end, signal } of pieces) {
    if (signal === undefined || start >= until) continue;
    const stop = Math.min(end, until);
    let duration = stop - start;
    if (duration === Infinity) {
      if (Math.abs(signal.limit()) > Math.max(NOTHING * signal.size(), signal.noise)) return Infinity;
      duration = fadingTime(signal);
    }
    const apart = takenApart(signal, duration);
    const part = integralOfProduct(apart, apart, duration, kernel);
    sum += kernel === 0 || stop === Infinity ? part : part * Math.exp(-kernel * Math.max(0, until - stop));
  }
  return sum;
}

/** s from which on a run repeats itself for ever; undefined: it settles. */
export function repeatsSince({ repeatsFrom, segments }: Timeline): number | undefined {
  return repeatsFrom === undefined ? undefined : (segments[repeatsFrom]?.start ?? 0);
}

/**
 * Of a whole run, over all time: without end where it repeats for ever a stretch in which anything flows.
 * @param repeatsFrom s from which on it repeats; undefined: it settles
 */
export function integralOfAll(pieces: readonly Piece[], repeatsFrom: number | undefined): number {
  if (repeatsFrom === undefined) return integralOfSquare(pieces, Infinity);
  const repeated = pieces.filter(({ start }) => start >= repeatsFrom);
  const last = repeated.at(-1)?.end ?? repeatsFrom;
  return integralOfSquare(repeated, last) > 0 ? Infinity : integralOfSquare(pieces, last);
}

/** Long enough that nothing measurable is left: 40 of the slowest time constants. */
function fadingTime(signal: ExponentialSum): number {
  const rates = [...signal.rates, ...signal.modeRates, ...signal.driveRates].filter((rate) => rate > 0);
  return rates.length === 0 ? 0 : 40 / Math.min(...rates);
}
