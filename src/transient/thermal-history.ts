import type { HeatPath } from './heat-path.js';
import type { Piece } from './piecewise.js';
import { PieceHeat } from './piece-heat.js';

/** A row of equal pulses of current, one after the other. */
export interface Pulses {
  /** A, counted from the start of a pulse, in order of time. */
  readonly current: readonly Piece[];
  /** s after which a pulse carries nothing more; a longer one is cut where the next begins. Infinity: it is left on. */
  readonly until: number;
  /** Infinity: without end. */
  readonly count: number;
  /** s from the start of one to that of the next, and of the last to that of the next row. Infinity: nothing follows. */
  readonly interval: number;
}

interface HeatedPiece {
  /** s from the start of the period. */
  readonly start: number;
  readonly heat: PieceHeat;
  /** K at its start, where the period begins cold. */
  readonly cold: number;
}

/** One period of a row: the same current whatever the temperature it begins at. */
interface Period {
  readonly pieces: readonly HeatedPiece[];
  readonly row: Pulses;
  /** K that one period leaves at its end where it begins cold. */
  readonly left: number;
  /** s at which the row begins. */
  readonly start: number;
  /** K at that instant. */
  readonly first: number;
}

/**
 * How warm a resistor gets over a whole history of pulses: attempts with cool-down, repeated discharges, a rise into a short,
 * a permanent connection. It begins at its ambient; all temperatures are K above it.
 *
 * A single thermal mass is linear: a period of length Δ takes θ to q·θ + h, q = e^(−Δ/τ), so n of them add h·(1 − qⁿ)/(1 − q),
 * the geometric sum. The temperatures at the starts of the periods therefore go one way, and with them the whole period: the
 * hottest of n periods is the first or the last (without end: the limit), and only those two are looked through.
 */
export class ThermalHistory {
  private readonly rate: number;
  private readonly periods: readonly Period[];

  /** @param rows one after the other; only the last may be without end */
  constructor(path: HeatPath, rows: readonly Pulses[]) {
    this.rate = 1 / (path.resistance * path.capacitance);
    const periods: Period[] = [];
    let start = 0;
    let first = 0;
    for (const row of rows) {
      if (start === Infinity) throw new RangeError('nothing follows a row without end');
      const until = Math.min(row.until, row.interval);
      const pieces: HeatedPiece[] = [];
      for (const { start: from, end, signal } of row.current) {
        if (signal === undefined || from >= until || end <= from) continue;
        const heat = new PieceHeat(path, signal, Math.min(end, until) - from);
        pieces.push({ start: from, heat, cold: this.within({ pieces }, 0, from) });
      }
      const period = { pieces, row, start, first, left: this.within({ pieces }, 0, row.interval) };
      periods.push(period);
      first = this.after(period, row.count);
      start += row.count * row.interval;
    }
    this.periods = periods;
  }

  /** K above the ambient at an instant, s from the start of the first row. */
  riseAt(time: number): number {
    const period = this.periods.findLast(({ start }) => start <= time);
    if (period === undefined) return 0;
    const { row, start } = period;
    const done = row.interval === Infinity ? 0 : Math.min(row.count, Math.floor((time - start) / row.interval));
    const began = start + (done === 0 ? 0 : done * row.interval);
    // Past the last of the row it only cools.
    if (done === row.count) return this.after(period, done) * Math.exp(-this.rate * (time - began));
    return this.within(period, this.after(period, done), time - began);
  }

  /** K above the ambient at the hottest instant; of a history without end the least that it never exceeds. */
  peak(): number {
    return this.periods.reduce((hottest, period) => {
      const firstPeak = this.peakWithin(period, period.first);
      if (period.row.count <= 1) return Math.max(hottest, firstPeak);
      return Math.max(hottest, firstPeak, this.peakWithin(period, this.after(period, period.row.count - 1)));
    }, 0);
  }

  /** K after so many periods of a row. */
  private after({ left, first, row: { interval } }: Period, count: number): number {
    // In no time nothing flows.
    if (count === 0 || interval === 0) return first;
    const decay = this.rate * interval;
    if (count === Infinity) return left / -Math.expm1(-decay);
    return first * Math.exp(-decay * count) + left * (Math.expm1(-decay * count) / Math.expm1(-decay));
  }

  /** K at `time` s into a period that begins at `from` K. */
  private within({ pieces }: Pick<Period, 'pieces'>, from: number, time: number): number {
    const piece = pieces.findLast(({ start }) => start < time);
    if (piece === undefined) return from * Math.exp(-this.rate * time);
    const { start, heat, cold } = piece;
    // What it begins with and what it is heated by add up.
    const end = Math.min(start + heat.duration, time);
    const rise = heat.at(cold + from * Math.exp(-this.rate * start), end - start);
    return time > end ? rise * Math.exp(-this.rate * (time - end)) : rise;
  }

  private peakWithin({ pieces }: Period, from: number): number {
    let rise = from;
    let now = 0;
    let hottest = from;
    for (const { start, heat } of pieces) {
      rise *= Math.exp(-this.rate * (start - now));
      hottest = Math.max(hottest, heat.peak(rise));
      rise = heat.at(rise, heat.duration);
      now = start + heat.duration;
    }
    return hottest;
  }
}
