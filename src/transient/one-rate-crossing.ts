import type { Crossing } from './crossing.js';
import type { ExponentialSum } from './exponential-sum.js';

/** Multiples of the tie: nearer to the level than this at either end, or to the end of the time, the general search decides. */
const CLEAR = 16;

/**
 * The crossing of a signal in which everything fades at one rate: v(t) = v₀ + s·(1 − e^(−λt))/λ runs one way, so it crosses a
 * level once or not at all, at t = −ln(1 − λ·(level − v₀)/s)/λ. Most signals of a car are such.
 *
 * @param tie V (or A) as near as which counts as on the level
 * @returns undefined where the signal is of another kind, or too near to the level to be told apart from a touch
 */
export function oneRateCrossing(
  signal: ExponentialSum,
  level: number,
  until: number,
  tie: number,
): Crossing[] | undefined {
  const rate = rateOf(signal);
  if (rate === undefined) return undefined;
  let start = 0;
  let slope = 0;
  let size = Math.abs(level);
  signal.coefficients.forEach((coefficient, i) => {
    start += coefficient;
    slope -= (signal.rates[i] as number) * coefficient;
    size += Math.abs(coefficient);
  });
  for (const push of signal.driven) {
    slope += push;
    size += Math.abs(push) / rate;
  }
  const limit = start + slope / rate;
  const near = CLEAR * Math.max(tie, Number.EPSILON * size);
  const [above, ahead] = [level - start, limit - level];
  if (Math.abs(above) <= near || Math.abs(ahead) <= near) return undefined;
  if (above > 0 !== ahead > 0) return [];
  const done = above / (limit - start);
  const time = (done < 0.5 ? -Math.log1p(-done) : Math.log((limit - start) / ahead)) / rate;
  if (until < Number.POSITIVE_INFINITY && Math.abs(time - until) <= 1e-9 * until) return undefined;
  return time < until ? [{ time, direction: above > 0 ? 1 : -1 }] : [];
}

/** 1/s; undefined where there is none, more than one, a drift or a drive that fades. */
function rateOf({ rates, modeRates, driveRates }: ExponentialSum): number | undefined {
  let rate = 0;
  for (let i = 0; i < rates.length; i += 1) {
    const each = rates[i] as number;
    if (each === 0 || each === rate) continue;
    if (rate !== 0) return undefined;
    rate = each;
  }
  for (let j = 0; j < modeRates.length; j += 1) {
    const each = modeRates[j] as number;
    if (each === 0 || driveRates[j] !== 0 || (rate !== 0 && each !== rate)) return undefined;
    rate = each;
  }
  return rate > 0 ? rate : undefined;
}
