import { drivenMode, type ExponentialSum } from './exponential-sum.js';

/** Terms of the Taylor polynomial. */
const ORDER = 12;

/**
 * An interval that holds every value over [from, to], much narrower than `range` where large terms nearly cancel.
 *
 * Terms that change little over the interval go into one Taylor polynomial about its middle, in which they may cancel, with
 * the remainder of each bounded by its largest derivative; the others are taken one by one.
 * Source: Taylor's formula. |dᵖφ/dtᵖ| ≤ p·max(λ, μ)ᵖ⁻¹, since φ is a divided difference over [μ, λ] of −e^(−xt), and
 * |d/dx xᵖe^(−xt)| = xᵖ⁻¹·|p − xt|·e^(−xt).
 */
export function enclosure(sum: ExponentialSum, from: number, to: number): { low: number; high: number } {
  const half = (to - from) / 2;
  const middle = from + half;
  const taylor = new Float64Array(ORDER);
  let low = 0;
  let high = 0;
  let rest = 0;
  const whole = (one: number, other: number, top = one): void => {
    low += Math.min(one, other, top);
    high += Math.max(one, other, top);
  };
  for (let i = 0; i < sum.rates.length; i += 1) {
    const rate = sum.rates[i] as number;
    const a = sum.coefficients[i] as number;
    const x = rate * half;
    if (Math.abs(x) > 1) {
      whole(a * Math.exp(-rate * from), a * Math.exp(-rate * to));
      continue;
    }
    let term = a * Math.exp(-rate * middle);
    for (let k = 0; k < ORDER; k += 1) {
      taylor[k] = (taylor[k] as number) + term;
      term *= -x / (k + 1);
    }
    rest += Math.abs(term) * Math.exp(Math.abs(x));
  }
  for (let j = 0; j < sum.driven.length; j += 1) {
    const c = sum.driven[j] as number;
    const mode = sum.modeRates[j] as number;
    const drive = sum.driveRates[j] as number;
    const fastest = Math.max(mode, drive);
    const x = fastest * half;
    if (x > 1) {
      // Never above 1/max(λ, μ), and on [from, to] never below the smaller end: φ rises to one peak and falls.
      const ends = [c * drivenMode(mode, drive, from), c * drivenMode(mode, drive, to)] as const;
      whole(ends[0], ends[1], drive === 0 || mode === 0 ? ends[0] : c / fastest);
      continue;
    }
    // hᵏ/k!·φ⁽ᵏ⁾ by φ' = e^(−λt) − μ·φ.
    let value = drivenMode(mode, drive, middle);
    let fade = half * Math.exp(-mode * middle);
    taylor[0] = (taylor[0] as number) + c * value;
    for (let k = 1; k < ORDER; k += 1) {
      value = fade - (drive * half * value) / k;
      taylor[k] = (taylor[k] as number) + c * value;
      fade *= (-mode * half) / (k + 1);
    }
    let bound = half;
    for (let k = 1; k < ORDER; k += 1) bound *= x / k;
    rest += Math.abs(c) * bound;
  }
  for (let k = 0; k < ORDER; k += 1) {
    const term = taylor[k] as number;
    if (k === 0) whole(term, term);
    else if (k % 2 === 1) whole(term, -term);
    else whole(0, term);
  }
  return { low: low - rest, high: high + rest };
}

/** How far off the computed value at an instant may be: a few roundings of each term, of its exponent's too. */
export function noiseAt(sum: ExponentialSum, time: number): number {
  let size = 0;
  for (let i = 0; i < sum.rates.length; i += 1) {
    const x = (sum.rates[i] as number) * time;
    size += Math.abs(sum.coefficients[i] as number) * Math.exp(-x) * (1 + Math.abs(x));
  }
  for (let j = 0; j < sum.driven.length; j += 1) {
    const x = Math.min(sum.modeRates[j] as number, sum.driveRates[j] as number) * time;
    size +=
      Math.abs(sum.driven[j] as number) *
      drivenMode(sum.modeRates[j] as number, sum.driveRates[j] as number, time) *
      (1 + Math.abs(x));
  }
  return ROUNDINGS * Number.EPSILON * size;
}

const ROUNDINGS = 16;
