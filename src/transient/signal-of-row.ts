import { addTerm } from './add-term.js';
import { ExponentialSum } from './exponential-sum.js';
import { ratesApart } from './rates-apart.js';
import type { Row } from './row.js';

/** What a row's shares are shares of. */
export interface ModeCourses {
  /** 1/s of each mode. */
  readonly rates: readonly number[];
  /** Each mode's value at the start. */
  readonly start: readonly number[];
  /** Drive of mode i by channel c at [c·n + i]. */
  readonly drive: readonly number[];
  /** 1/s of each channel; channel 0 is constant. */
  readonly channelRates: readonly number[];
}

const NONE: readonly number[] = [];
const CONSTANT: readonly number[] = [0];

/**
 * The course of a row: y = y₀·e^(−λt) + Σ d·φ(λ, μ, t) for each mode, e^(−μt) for each channel.
 * @param noise of its values, in their unit: see `ExponentialSum`
 */
export function signalOfRow(
  row: Row,
  { rates, start, drive, channelRates }: ModeCourses,
  noise: number,
): ExponentialSum {
  const n = rates.length;
  if (n === 1 && channelRates.length === 1) {
    return ofOneMode(row, rates[0] as number, start[0] as number, drive[0] as number, noise);
  }
  const signal = new Terms();
  channelRates.forEach((rate, c) => {
    signal.plain(rate, row[2 * n + c] as number);
  });
  for (let i = 0; i < n; i += 1) {
    const share = row[i] as number;
    const slope = row[n + i] as number;
    if (share === 0 && slope === 0) continue;
    const rate = rates[i] as number;
    const from = start[i] as number;
    const constant = drive[i] as number;
    // y = y₀·e^(−λt) + c·φ(λ, 0, t), so y' = (c − λ·y₀)·e^(−λt).
    signal.plain(rate, share * from + slope * (constant - rate * from));
    signal.driven(rate, 0, share * constant);
    for (let c = 1; c < channelRates.length; c += 1) {
      const d = drive[c * n + i] as number;
      const fading = channelRates[c] as number;
      // Likewise for a fading drive: φ' = e^(−λt) − μ·φ.
      signal.plain(rate, slope * d);
      signal.driven(rate, fading, (share - slope * fading) * d);
    }
  }
  return signal.sum(noise);
}

/** The commonest state by far, without the detour: one mode under constant sources. */
function ofOneMode(row: Row, rate: number, start: number, constant: number, noise: number): ExponentialSum {
  const share = row[0] as number;
  const slope = row[1] as number;
  const level = row[2] as number;
  const fading = share * start + slope * (constant - rate * start);
  const driven = share * constant;
  const drives = driven === 0 ? NONE : CONSTANT;
  const modes = driven === 0 ? NONE : [rate];
  const pushes = driven === 0 ? NONE : [driven];
  if (fading === 0)
    return new ExponentialSum(
      level === 0 ? NONE : CONSTANT,
      level === 0 ? NONE : [level],
      modes,
      drives,
      pushes,
      noise,
    );
  if (level === 0) return new ExponentialSum([rate], [fading], modes, drives, pushes, noise);
  if (rate === 0) return new ExponentialSum(CONSTANT, [level + fading], modes, drives, pushes, noise);
  return new ExponentialSum([0, rate], [level, fading], modes, drives, pushes, noise);
}

class Terms {
  private readonly rates: number[] = [];
  private readonly coefficients: number[] = [];
  private readonly modeRates: number[] = [];
  private readonly driveRates: number[] = [];
  private readonly pushes: number[] = [];

  plain(rate: number, coefficient: number): void {
    if (coefficient !== 0) addTerm(this.rates, this.coefficients, rate, coefficient);
  }

  driven(mode: number, drive: number, coefficient: number): void {
    if (coefficient === 0) return;
    // Far apart the driven mode is two exponentials; the one of the drive may then cancel with its like.
    if (drive !== 0 && ratesApart(mode, drive)) {
      this.plain(drive, coefficient / (mode - drive));
      this.plain(mode, -coefficient / (mode - drive));
      return;
    }
    this.modeRates.push(mode);
    this.driveRates.push(drive);
    this.pushes.push(coefficient);
  }

  sum(noise: number): ExponentialSum {
    return new ExponentialSum(this.rates, this.coefficients, this.modeRates, this.driveRates, this.pushes, noise);
  }
}
