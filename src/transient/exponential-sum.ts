import { addTerm } from './add-term.js';
import { expDividedDifference } from './exp-divided-difference.js';
import { riseFunction } from './rise-function.js';

/**
 * A signal between two switch events: Σ aᵢ·e^(−λᵢt) + Σ cⱼ·φ(λⱼ, μⱼ, t), t counted from the last event, every rate ≥ 0.
 *
 * φ(λ, μ, t) = ∫₀ᵗ e^(−λ(t−s))·e^(−μs) ds is a mode λ driven by an input that decays at μ (0: a constant one). A constant
 * is an exponential of rate 0, a steady drift is φ(0, 0, t) = t. The class is closed under derivatives.
 */
export class ExponentialSum {
  private slope: ExponentialSum | undefined;

  /**
   * @param rates λᵢ in 1/s, ≥ 0
   * @param coefficients aᵢ
   * @param modeRates λⱼ of the driven terms
   * @param driveRates μⱼ of the driven terms
   * @param driven cⱼ, in the signal's unit per second
   * @param noise by how much its values may be off for being the difference of larger ones, in the signal's unit
   */
  constructor(
    readonly rates: readonly number[],
    readonly coefficients: readonly number[],
    readonly modeRates: readonly number[] = [],
    readonly driveRates: readonly number[] = [],
    readonly driven: readonly number[] = [],
    readonly noise = 0,
  ) {}

  static constant(value: number): ExponentialSum {
    return new ExponentialSum([0], [value]);
  }

  at(time: number): number {
    let sum = 0;
    for (let i = 0; i < this.rates.length; i += 1) {
      sum += (this.coefficients[i] as number) * Math.exp(-(this.rates[i] as number) * time);
    }
    for (let j = 0; j < this.driven.length; j += 1) {
      sum += (this.driven[j] as number) * drivenMode(this.modeRates[j] as number, this.driveRates[j] as number, time);
    }
    return sum;
  }

  derivative(): ExponentialSum {
    this.slope ??= this.differentiate();
    return this.slope;
  }

  private differentiate(): ExponentialSum {
    const rates: number[] = [];
    const coefficients: number[] = [];
    const add = (rate: number, coefficient: number): void => addTerm(rates, coefficients, rate, coefficient);
    for (let i = 0; i < this.rates.length; i += 1) {
      const rate = this.rates[i] as number;
      if (rate !== 0) add(rate, -rate * (this.coefficients[i] as number));
    }
    const modeRates: number[] = [];
    const driveRates: number[] = [];
    const driven: number[] = [];
    for (let j = 0; j < this.driven.length; j += 1) {
      const mode = this.modeRates[j] as number;
      const drive = this.driveRates[j] as number;
      const c = this.driven[j] as number;
      // φ' = e^(−λt) − μ·φ
      add(mode, c);
      if (drive !== 0) {
        modeRates.push(mode);
        driveRates.push(drive);
        driven.push(-drive * c);
      }
    }
    return new ExponentialSum(rates, coefficients, modeRates, driveRates, driven, this.noise * this.fastest);
  }

  /** 1/s, of all its terms. */
  private get fastest(): number {
    return Math.max(0, ...this.rates, ...this.modeRates, ...this.driveRates);
  }

  /** The limit for t → ∞; ±Infinity where it drifts away. */
  limit(): number {
    let sum = 0;
    for (let i = 0; i < this.rates.length; i += 1) {
      if (this.rates[i] === 0) sum += this.coefficients[i] as number;
    }
    for (let j = 0; j < this.driven.length; j += 1) {
      const c = this.driven[j] as number;
      const mode = this.modeRates[j] as number;
      const drive = this.driveRates[j] as number;
      // φ ends at 1/λ or 1/μ where the other is 0, and at 0 where neither is.
      if (c !== 0 && Math.min(mode, drive) === 0) sum += c / Math.max(mode, drive);
    }
    return sum;
  }

  /** Sum of the sizes of all terms (a drift counts by the second): what rounding is relative to. */
  size(): number {
    let sum = 0;
    for (const a of this.coefficients) sum += Math.abs(a);
    this.driven.forEach((c, j) => {
      sum += Math.abs(c) / (Math.max(this.modeRates[j] as number, this.driveRates[j] as number) || 1);
    });
    return sum;
  }

  /** Every value over [from, to] lies in the answer, taken term by term: outer, and exact where all terms move one way. */
  range(from: number, to: number): { low: number; high: number } {
    let low = 0;
    let high = 0;
    for (let i = 0; i < this.rates.length; i += 1) {
      const a = this.coefficients[i] as number;
      const rate = this.rates[i] as number;
      const start = a * Math.exp(-rate * from);
      const end = rate === 0 ? a : a * Math.exp(-rate * to);
      low += Math.min(start, end);
      high += Math.max(start, end);
    }
    for (let j = 0; j < this.driven.length; j += 1) {
      const c = this.driven[j] as number;
      const mode = this.modeRates[j] as number;
      const drive = this.driveRates[j] as number;
      const start = c * drivenMode(mode, drive, from);
      const end = c * drivenMode(mode, drive, to);
      let least = Math.min(start, end);
      let most = Math.max(start, end);
      const peak = drivenPeak(mode, drive);
      if (peak > from && peak < to) {
        const top = c * drivenMode(mode, drive, peak);
        least = Math.min(least, top);
        most = Math.max(most, top);
      }
      low += least;
      high += most;
    }
    return { low, high };
  }

  plus(other: ExponentialSum, factor = 1): ExponentialSum {
    return new ExponentialSum(
      [...this.rates, ...other.rates],
      [...this.coefficients, ...other.coefficients.map((a) => a * factor)],
      [...this.modeRates, ...other.modeRates],
      [...this.driveRates, ...other.driveRates],
      [...this.driven, ...other.driven.map((c) => c * factor)],
      this.noise + other.noise * Math.abs(factor),
    );
  }

  times(factor: number): ExponentialSum {
    return new ExponentialSum(
      this.rates,
      this.coefficients.map((a) => a * factor),
      this.modeRates,
      this.driveRates,
      this.driven.map((c) => c * factor),
      this.noise * Math.abs(factor),
    );
  }
}

/** φ(λ, μ, t), s. */
export function drivenMode(mode: number, drive: number, time: number): number {
  if (drive === 0) return riseFunction(mode, time);
  const slower = Math.min(mode, drive);
  return Math.exp(-slower * time) * riseFunction(Math.abs(mode - drive), time);
}

/** When φ(λ, μ, ·) is largest, s: ln(λ/μ)/(λ − μ); Infinity where it only rises. */
function drivenPeak(mode: number, drive: number): number {
  if (drive <= 0 || mode === 0) return Number.POSITIVE_INFINITY;
  const excess = (mode - drive) / drive;
  return excess === 0 ? 1 / drive : Math.log1p(excess) / (mode - drive);
}

/**
 * ∫₀ᵀ e^(−κ(T−t))·f(t)·g(t) dt in closed form. κ = 0 is the plain integral (energy, charge squared); κ = 1/τ is what a
 * thermal mass of time constant τ remembers. T finite.
 *
 * Each product of two terms is a convolution of exponentials, so a divided difference of exp; the product of two driven
 * terms follows from (fg)' = e^(−at)·g + e^(−ct)·f − (b + d)·fg.
 */
export function integralOfProduct(f: ExponentialSum, g: ExponentialSum, duration: number, kernel = 0): number {
  const T = duration;
  if (T === 0) return 0;
  let sum = 0;
  for (let i = 0; i < f.rates.length; i += 1) {
    for (let j = 0; j < g.rates.length; j += 1) {
      const weight = (f.coefficients[i] as number) * (g.coefficients[j] as number);
      if (weight !== 0) sum += weight * drivenMode(kernel, (f.rates[i] as number) + (g.rates[j] as number), T);
    }
  }
  sum += plainTimesDriven(f, g, T, kernel) + plainTimesDriven(g, f, T, kernel);
  for (let i = 0; i < f.driven.length; i += 1) {
    const a = f.modeRates[i] as number;
    const b = f.driveRates[i] as number;
    for (let j = 0; j < g.driven.length; j += 1) {
      const c = g.modeRates[j] as number;
      const d = g.driveRates[j] as number;
      const weight = (f.driven[i] as number) * (g.driven[j] as number);
      if (weight === 0) continue;
      const shared = [-kernel * T, -(b + d) * T, -(a + c) * T];
      const first = expDividedDifference([...shared, -(a + d) * T]);
      const second = expDividedDifference([...shared, -(b + c) * T]);
      sum += weight * T * T * T * (first + second);
    }
  }
  return sum;
}

function plainTimesDriven(plain: ExponentialSum, driven: ExponentialSum, T: number, kernel: number): number {
  let sum = 0;
  for (let i = 0; i < plain.rates.length; i += 1) {
    const rate = plain.rates[i] as number;
    for (let j = 0; j < driven.driven.length; j += 1) {
      const weight = (plain.coefficients[i] as number) * (driven.driven[j] as number);
      if (weight === 0) continue;
      const points = [
        -kernel * T,
        -((driven.modeRates[j] as number) + rate) * T,
        -((driven.driveRates[j] as number) + rate) * T,
      ];
      sum += weight * T * T * expDividedDifference(points);
    }
  }
  return sum;
}
