import type { Crossing } from './crossing.js';
import { enclosure, noiseAt } from './enclosure.js';
import type { ExponentialSum } from './exponential-sum.js';
import { oneRateCrossing } from './one-rate-crossing.js';
import { settleCrossings } from './settle-crossings.js';

export type { Crossing } from './crossing.js';

/**
 * How close to the level, relative to `scale`, counts as on it: an equilibrium this near is never reached, a turning point
 * this near touches. Ten times the rounding of a sum of thirty terms.
 */
const TIE = 1e-12;

/** Splits after which an interval is as narrow as two floating-point numbers allow; more is a defect. */
const DEEPEST = 200;

/** Intervals looked at (thirty terms need a few hundred) after which the signs at the ends decide: what is left is rounding. */
const MOST_INTERVALS = 20_000;

/** e^−38 is below the rounding of anything it is added to. */
const FADED = 38;

/**
 * Every crossing of `level` over [0, until], in order of time. `until` may be Infinity.
 *
 * Intervals are split until the term-by-term range excludes the level (none), the slope (at most one) or the curvature (at
 * most two, either side of the turning point, which is found first). So no root is missed and none invented, and a
 * double root is a touch. Nothing is sampled.
 *
 * @param scale the size of the signal that the tie tolerance is relative to, > 0
 */
export function crossings(signal: ExponentialSum, level: number, until: number, scale: number): Crossing[] {
  const only = oneRateCrossing(signal, level, until, scale * TIE);
  if (only !== undefined) return only;
  const search = new Search(signal, level, scale * TIE);
  const end = Math.min(until, search.settled());
  const marks = search.marks(end);
  const found: Crossing[] = [];
  for (let k = 0; k + 1 < marks.length; k += 1) search.within(marks[k] as number, marks[k + 1] as number, found, 0);
  return found.length === 0 ? found : search.settle(found, end);
}

/** The first instant ≥ 0 at which the signal is at or above the level; undefined: never. */
export function firstAtOrAbove(
  signal: ExponentialSum,
  level: number,
  until: number,
  scale: number,
): number | undefined {
  if (signal.at(0) >= level - scale * 1e-15) return 0;
  return crossings(signal, level, until, scale).find((crossing) => crossing.direction >= 0)?.time;
}

class Search {
  private readonly first: ExponentialSum;
  private readonly second: ExponentialSum;
  private readonly level: number;
  private intervals = 0;

  constructor(
    private readonly signal: ExponentialSum,
    level: number,
    private readonly tie: number,
  ) {
    this.first = signal.derivative();
    this.second = this.first.derivative();
    this.level = level;
  }

  private value(time: number): number {
    return this.signal.at(time) - this.level;
  }

  /** Nearer to the level than this the signal counts as on it: the tie, or where that is below rounding, rounding. */
  private clear(time: number): number {
    return Math.max(this.tie, noiseAt(this.signal, time));
  }

  /** From here on every fading term is below rounding, or a drift dominates. */
  settled(): number {
    let slowest = Number.POSITIVE_INFINITY;
    let drift = 0;
    let size = Math.abs(this.level);
    for (let i = 0; i < this.signal.rates.length; i += 1) {
      const rate = this.signal.rates[i] as number;
      size += Math.abs(this.signal.coefficients[i] as number);
      if (rate > 0 && this.signal.coefficients[i] !== 0) slowest = Math.min(slowest, rate);
    }
    for (let j = 0; j < this.signal.driven.length; j += 1) {
      const c = this.signal.driven[j] as number;
      if (c === 0) continue;
      const mode = this.signal.modeRates[j] as number;
      const drive = this.signal.driveRates[j] as number;
      if (mode === 0 && drive === 0) drift += c;
      else {
        if (mode > 0) slowest = Math.min(slowest, mode);
        if (drive > 0) slowest = Math.min(slowest, drive);
        size += Math.abs(c) / Math.max(mode, drive);
      }
    }
    const faded = slowest === Number.POSITIVE_INFINITY ? 0 : FADED / slowest;
    return drift === 0 ? faded : faded + (2 * size) / Math.abs(drift);
  }

  /** Ends, and places between at which the terms of each rate have done a share of their work: intervals of like behaviour. */
  marks(end: number): number[] {
    if (!(end > 0)) return [];
    const marks = new Set<number>([0, end]);
    for (const rate of [...this.signal.rates, ...this.signal.modeRates, ...this.signal.driveRates]) {
      if (rate <= 0) continue;
      for (const share of [0.5, 4]) if (share / rate < end) marks.add(share / rate);
    }
    return [...marks].sort((a, b) => a - b);
  }

  within(from: number, to: number, found: Crossing[], depth: number): void {
    this.intervals += 1;
    if (this.intervals > MOST_INTERVALS) {
      this.monotone(from, to, found);
      return;
    }
    const outer = this.signal.range(from, to);
    const clear = this.clear(from);
    if (outer.low > this.level + clear || outer.high < this.level - clear) return;
    const { low, high } = enclosure(this.signal, from, to);
    if (low > this.level + clear || high < this.level - clear) return;
    if (low >= this.level - clear && high <= this.level + clear) {
      // All of it on the level: whether it comes in on one side and leaves on the other is seen from outside.
      found.push({ time: from, direction: 0 }, { time: to, direction: 0 });
      return;
    }
    if (oneWay(this.first, from, to)) {
      this.monotone(from, to, found);
      return;
    }
    if (oneWay(this.second, from, to)) {
      this.bent(from, to, found);
      return;
    }
    const middle = from + (to - from) / 2;
    if (depth >= DEEPEST || middle <= from || middle >= to) {
      this.monotone(from, to, found);
      return;
    }
    this.within(from, middle, found, depth + 1);
    this.within(middle, to, found, depth + 1);
  }

  /** One way throughout: a root where the signs differ, and a candidate at an end on the level, which may be a touch. */
  private monotone(from: number, to: number, found: Crossing[]): void {
    const start = this.value(from);
    const end = this.value(to);
    if (Math.abs(start) <= this.clear(from)) found.push({ time: from, direction: 0 });
    if (start * end < 0) {
      found.push({
        time: polish(
          (t) => this.value(t),
          (t) => this.first.at(t),
          from,
          to,
          start,
          end,
        ),
        direction: end > start ? 1 : -1,
      });
    }
    if (Math.abs(end) <= this.clear(to)) found.push({ time: to, direction: 0 });
  }

  /** A limit on the level is approached and never reached: what nothing leaves again is no crossing. */
  settle(found: readonly Crossing[], end: number): Crossing[] {
    const sign = (time: number): number => {
      const value = this.value(time);
      return Math.abs(value) <= this.clear(time) ? 0 : Math.sign(value);
    };
    return settleCrossings(sign, found, end, Math.abs(this.signal.limit() - this.level) <= this.tie);
  }

  /** Curved one way: at most one turning point, so at most one root either side of it. */
  private bent(from: number, to: number, found: Crossing[]): void {
    const startSlope = this.first.at(from);
    const endSlope = this.first.at(to);
    if (startSlope * endSlope >= 0) {
      this.monotone(from, to, found);
      return;
    }
    const turn = polish(
      (t) => this.first.at(t),
      (t) => this.second.at(t),
      from,
      to,
      startSlope,
      endSlope,
    );
    const extreme = this.value(turn);
    if (Math.abs(extreme) <= this.clear(turn) && turn > from && turn < to) {
      const away = Math.max(Math.abs(this.value(from)), Math.abs(this.value(to)));
      if (away > this.clear(turn)) {
        found.push({ time: turn, direction: 0 });
        return;
      }
    }
    this.monotone(from, turn, found);
    this.monotone(turn, to, found);
  }
}

/** Whether the sum keeps one sign over [from, to]. */
function oneWay(sum: ExponentialSum, from: number, to: number): boolean {
  const outer = sum.range(from, to);
  if (outer.low >= 0 || outer.high <= 0) return true;
  const { low, high } = enclosure(sum, from, to);
  return low >= 0 || high <= 0;
}

/** Newton's method kept inside a shrinking bracket (the classic safeguarded form); to the last bit or 100 rounds. */
function polish(
  f: (t: number) => number,
  slope: (t: number) => number,
  from: number,
  to: number,
  start: number,
  end: number,
): number {
  if (start === 0) return from;
  if (end === 0) return to;
  let low = from;
  let high = to;
  const rising = end > start;
  let t = low + (high - low) / 2;
  for (let round = 0; round < 200; round += 1) {
    const value = f(t);
    if (value === 0) return t;
    if (value > 0 === rising) high = t;
    else low = t;
    let next = t - value / slope(t);
    if (!(next > low && next < high)) next = low + (high - low) / 2;
    if (Math.abs(next - t) <= 2 * Number.EPSILON * Math.abs(t) || next === low || next === high) return next;
    t = next;
  }
  return t;
}
