import { crossings } from '../../transient/crossings.js';
import type { ExponentialSum } from '../../transient/exponential-sum.js';

/** A ratio of two signals and when it stands, s. */
export interface RatioAt {
  readonly ratio: number;
  readonly time: number;
}

/** Rounds after which the iteration has long settled: it converges faster than linearly. */
const MOST_ROUNDS = 60;
/** Share of a slope that is rounding. */
const NOTHING = 1e-12;
/** Relative change of a ratio that counts as none. */
const SETTLED = 1e-12;

/**
 * The smallest and the largest of a/b over [from, to], `to` perhaps infinite; b > 0 throughout.
 *
 * Dinkelbach's iteration for ratios (Management Science 13, 1967, from memory): with q a ratio that occurs, the instant at which
 * a − q·b is largest gives a larger one, until nothing is above 0. Each round looks at the ends and at every turning point of
 * a − q·b, a sum of exponentials like any other, so no extreme is missed and nothing is sampled.
 */
export function extremeRatios(
  a: ExponentialSum,
  b: ExponentialSum,
  from: number,
  to: number,
): { readonly least: RatioAt; readonly most: RatioAt } {
  const first = ratioAt(a, b, from);
  // What is a fixed share of the other differs from it by rounding only: nothing to look for.
  if (a.plus(b, -first.ratio).derivative().size() <= NOTHING * b.derivative().size())
    return { least: first, most: first };
  return new Extremes(a, b, from, to);
}

/** Each is found only where it is asked for: who reads one of them seldom wants the other. */
class Extremes {
  constructor(
    private readonly a: ExponentialSum,
    private readonly b: ExponentialSum,
    private readonly from: number,
    private readonly to: number,
  ) {}

  get least(): RatioAt {
    const { ratio, time } = largest(this.a.times(-1), this.b, this.from, this.to);
    return { ratio: -ratio, time };
  }

  get most(): RatioAt {
    return largest(this.a, this.b, this.from, this.to);
  }
}

function largest(a: ExponentialSum, b: ExponentialSum, from: number, to: number): RatioAt {
  let best = ratioAt(a, b, from);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const excess = a.plus(b, -best.ratio);
    const slope = excess.derivative();
    // Where a is a fixed share of b nothing but rounding is left of the slope: it counts against what was subtracted.
    const scale = a.derivative().size() + Math.abs(best.ratio) * b.derivative().size();
    const turns = crossings(slope, 0, to, Math.max(scale, Number.MIN_VALUE)).map(({ time }) => time);
    const candidates = [from, to, ...turns.filter((time) => time > from && time < to)].map((time) =>
      ratioAt(a, b, time),
    );
    const next = candidates.reduce((top, each) => (each.ratio > top.ratio ? each : top), best);
    if (next.ratio - best.ratio <= SETTLED * Math.max(1, Math.abs(best.ratio))) return next;
    best = next;
  }
  return best;
}

function ratioAt(a: ExponentialSum, b: ExponentialSum, time: number): RatioAt {
  return { ratio: valueAt(a, time) / valueAt(b, time), time };
}

function valueAt(signal: ExponentialSum, time: number): number {
  return time === Infinity ? signal.limit() : signal.at(time);
}
