import { crossings } from './crossings.js';
import { type ExponentialSum, integralOfProduct } from './exponential-sum.js';
import type { HeatPath } from './heat-path.js';
import { takenApart } from './taken-apart.js';

/** Relative to what flows in and out: less than this is rounding. */
const EVEN = 1e-12;

/** Time constants after which nothing measurable is left. */
const FADED = 40;

/** Time constants from one look to the next where a temperature that has settled does not show how it came there. */
const LOOK = 2;

/** Relative step at which an instant is good enough: the temperature is level there, so its error is the square of this. */
const CLOSE = 1e-7;

/** What one piece of current does to a thermal mass. Temperatures are K above the ambient, times s from the piece's start. */
export class PieceHeat {
  private readonly signal: ExponentialSum;
  /** 1/s */
  private readonly rate: number;
  /** K/s for each A² */
  private readonly gain: number;
  private readonly settled: number;
  private turns: readonly number[] | undefined;

  /** @param duration s; may be Infinity */
  constructor(
    path: HeatPath,
    signal: ExponentialSum,
    readonly duration: number,
  ) {
    this.rate = 1 / (path.resistance * path.capacitance);
    this.gain = path.ohms / path.capacitance;
    this.signal = takenApart(signal, duration);
    this.settled = 1 / slowest(this.signal, this.rate);
  }

  /** θ(t) = θ₀·e^(−t/τ) + (R/C)·∫ i²·e^(−(t−s)/τ) ds. */
  at(from: number, time: number): number {
    if (time === Infinity) {
      const last = this.signal.limit();
      return (this.gain * last * last) / this.rate;
    }
    return (
      from * Math.exp(-this.rate * time) + this.gain * integralOfProduct(this.signal, this.signal, time, this.rate)
    );
  }

  /**
   * The highest temperature in it. With θ' = p − θ/τ, p = R·i²/C, the product e^(t/τ)·θ' has the slope e^(t/τ)·p'. Between
   * two roots of p' = 2R·i·i'/C it goes one way, so there θ has one maximum at most, and none unless it first heats and then cools.
   */
  peak(from: number): number {
    const end = Math.min(this.duration, FADED * this.settled);
    let hottest = Math.max(from, this.at(from, this.duration));
    if (hottest === Infinity || this.isConstant) return hottest;
    const marks = [0, ...this.turningPoints(end), end];
    for (let k = 0; k + 1 < marks.length; k += 1) {
      const low = marks[k] as number;
      const high = marks[k + 1] as number;
      hottest = Math.max(hottest, this.at(from, low));
      if (high <= low || this.balance(from, low) <= 0) continue;
      const cooling = this.firstCooling(from, low, high);
      if (cooling !== undefined) hottest = Math.max(hottest, this.at(from, this.turn(from, low, cooling)));
    }
    return hottest;
  }

  private get isConstant(): boolean {
    return this.signal.driven.length === 0 && this.signal.rates.every((rate) => rate === 0);
  }

  /** Where the power begins to rise or to fall. */
  private turningPoints(end: number): readonly number[] {
    this.turns ??= [this.signal, this.signal.derivative()]
      .flatMap((sum) => crossings(sum, 0, end, Math.max(sum.size(), Number.MIN_VALUE)))
      .map(({ time }) => time)
      .sort((a, b) => a - b);
    return this.turns;
  }

  /** What flows in less what flows out, K/s. */
  private balance(from: number, time: number): number {
    return this.gain * this.signal.at(time) ** 2 - this.rate * this.at(from, time);
  }

  /** An instant at which it surely cools; it is looked for all along only where the end does not tell. */
  private firstCooling(from: number, low: number, high: number): number | undefined {
    const net = (time: number): number => {
      const inflow = this.gain * this.signal.at(time) ** 2;
      const outflow = this.rate * this.at(from, time);
      return (inflow - outflow) / (inflow + outflow);
    };
    const last = net(high);
    if (last < -EVEN) return high;
    if (last > EVEN || Number.isNaN(last)) return undefined;
    for (let time = low + LOOK * this.settled; time < high; time += LOOK * this.settled) {
      if (net(time) < -EVEN) return time;
    }
    return undefined;
  }

  /**
   * The instant between at which as much flows in as out: Newton's method on the logarithm of their ratio, which is nearly
   * straight, kept inside a shrinking bracket.
   */
  private turn(from: number, heating: number, cooling: number): number {
    const slope = this.signal.derivative();
    let low = heating;
    let high = cooling;
    let time = low + this.guess(low, slope);
    for (let round = 0; round < 100; round += 1) {
      if (!(time > low && time < high))
        time = low < high / 1000 ? Math.sqrt(Math.max(low, high * 1e-6) * high) : (low + high) / 2;
      const current = this.signal.at(time);
      const inflow = this.gain * current * current;
      const rise = this.at(from, time);
      const outflow = this.rate * rise;
      if (inflow === outflow) return time;
      if (inflow > outflow) low = time;
      else high = time;
      const next = time - Math.log(inflow / outflow) / ((2 * slope.at(time)) / current - (inflow - outflow) / rise);
      if (Math.abs(next - time) <= CLOSE * time || high - low <= CLOSE * high)
        return Math.min(high, Math.max(low, next));
      time = next;
    }
    return time;
  }

  /** Exact for a single fading exponential: ln(2λτ)/(2λ − 1/τ). */
  private guess(low: number, slope: ExponentialSum): number {
    const fading = (-2 * slope.at(low)) / this.signal.at(low);
    const excess = (fading - this.rate) / this.rate;
    return excess === 0 ? 1 / this.rate : Math.log1p(excess) / (fading - this.rate);
  }
}

function slowest(signal: ExponentialSum, rate: number): number {
  let least = rate;
  for (const each of [signal.rates, signal.modeRates, signal.driveRates])
    for (const other of each) if (other > 0 && other < least) least = other;
  return least;
}
