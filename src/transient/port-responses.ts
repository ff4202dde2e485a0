import { drivenMode } from './exponential-sum.js';
import { FADINGS } from './power-current.js';
import { ratesApart } from './rates-apart.js';
import type { Row } from './row.js';
import type { StateSolution } from './state-solution.js';

/** A pair of nodes across which loads of constant power stand. */
export interface Port {
  readonly a: number;
  readonly b: number;
  /** W, of all of them together. */
  readonly power: number;
  /** Index of each load's element, and its share of the power. */
  readonly loads: readonly { readonly element: number; readonly share: number }[];
}

/**
 * What loads' currents do to the voltages across them: the voltage with none of them drawn, and what each term of each current
 * adds to it. Linear, so one solution in which the first load of each port draws 1 A in its first term tells all of it.
 */
export class PortResponses {
  private readonly rows: readonly Row[];
  private readonly channels: readonly number[];
  private readonly drawn: readonly boolean[];

  /**
   * @param solution in which the first load of each port draws 1·e^(−t·rate), any rate, and every other nothing
   * @returns undefined where a port has no voltage
   */
  static of(solution: StateSolution, ports: readonly Port[]): PortResponses | undefined {
    const rows = ports.map(({ a, b }) => solution.voltageRow(a, b));
    return rows.every((row) => row !== undefined) ? new PortResponses(solution, ports, rows) : undefined;
  }

  private constructor(
    private readonly solution: StateSolution,
    private readonly ports: readonly Port[],
    rows: readonly Row[],
  ) {
    this.rows = rows;
    this.channels = ports.map(({ loads }) => solution.loadChannel(loads[0]?.element ?? -1));
    const drawn = solution.channelRates.map(() => false);
    for (const { loads } of ports) {
      for (const { element } of loads) {
        const first = solution.loadChannel(element);
        for (let k = 0; k < FADINGS; k += 1) drawn[first + k] = true;
      }
    }
    this.drawn = drawn;
  }

  get count(): number {
    return this.ports.length;
  }

  /** V across each port with nothing drawn at an instant, s (Infinity: in the end); no number where it drifts without end. */
  idle(time: number): number[] {
    const { rates, start, drive, channelRates } = this.solution;
    const n = rates.length;
    const plain = rates.map((rate, i) => (start[i] as number) * fade(rate, time));
    channelRates.forEach((fading, c) => {
      if (this.drawn[c] === true) return;
      for (let i = 0; i < n; i += 1) {
        const push = drive[c * n + i] as number;
        if (push !== 0) plain[i] = (plain[i] as number) + push * response(rates[i] as number, fading, time);
      }
    });
    return this.rows.map((row) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) if (row[i] !== 0) sum += (row[i] as number) * (plain[i] as number);
      channelRates.forEach((fading, c) => {
        if (this.drawn[c] !== true) sum += (row[2 * n + c] as number) * fade(fading, time);
      });
      return sum;
    });
  }

  /**
   * V across `to` at an instant for 1 A through `from` of each term in turn: constant, then at 1, 2, 3 … times a rate.
   * @param z e^(−rate·time)
   * @param terms how many of them
   */
  drivenBy(from: number, to: number, time: number, z: number, rate: number, terms = FADINGS + 1): number[] {
    const { rates, drive } = this.solution;
    const n = rates.length;
    const row = this.rows[to] as Row;
    const channel = this.channels[from] as number;
    const direct = row[2 * n + channel] as number;
    const volts = new Array<number>(terms).fill(direct);
    for (let k = 1, power = z; k < terms; k += 1, power *= z) volts[k] = direct * power;
    for (let i = 0; i < n; i += 1) {
      const push = (row[i] as number) * (drive[channel * n + i] as number);
      if (push === 0) continue;
      const mode = rates[i] as number;
      const faded = fade(mode, time);
      for (let k = 0, power = 1; k < terms; k += 1, power *= z) {
        const fading = k * rate;
        // Far apart the response is a plain difference; its like costs two exponentials more.
        const shape = ratesApart(mode, fading) ? (power - faded) / (mode - fading) : response(mode, fading, time);
        volts[k] = (volts[k] as number) + push * shape;
      }
    }
    return volts;
  }

  /** V across each port, at [to][from], so long after a constant current of 1 A through each has begun; Infinity: in the end. */
  resistances(time: number): number[][] {
    return this.ports.map((_, to) => this.ports.map((__, from) => this.drivenBy(from, to, time, 0, 1, 1)[0] as number));
  }

  /** 1/s, the slowest that any port shows; 0: none fades. */
  get slowest(): number {
    const { rates } = this.solution;
    let slowest = Infinity;
    rates.forEach((rate, i) => {
      if (rate > 0 && this.rows.some((row) => row[i] !== 0)) slowest = Math.min(slowest, rate);
    });
    return slowest === Infinity ? 0 : slowest;
  }
}

function fade(rate: number, time: number): number {
  return rate === 0 ? 1 : Math.exp(-rate * time);
}

/** φ(λ, μ, t), also for t → ∞. */
function response(mode: number, drive: number, time: number): number {
  if (time < Infinity) return drivenMode(mode, drive, time);
  return Math.min(mode, drive) > 0 ? 0 : 1 / Math.max(mode, drive);
}
