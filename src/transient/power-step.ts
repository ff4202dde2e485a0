import { CURRENT_LOAD_KNEE } from './load-knee.js';
import { ExponentialSum } from './exponential-sum.js';
import type { PowerCurrent, StateSolution } from './state-solution.js';

/** A constant-power load in its constant range. */
export interface PowerLoad {
  /** Index of the element. */
  readonly element: number;
  readonly a: number;
  readonly b: number;
  /** W */
  readonly power: number;
}

/** A stretch of time over which the loads' currents are followed closely enough. */
export interface PowerStep {
  readonly solution: StateSolution;
  /** s; Infinity: settled, the solution holds for ever. */
  readonly length: number;
  /** s, a good length to try next. */
  readonly next: number;
}

/** Relative error of a load's current that is allowed anywhere in a step. */
const TOLERANCE = 1e-8;
/** From here on relative to the settled current a load counts as settled: what is left fades by itself. */
const SETTLED = 1e-8;
const MOST_ROUNDS = 30;
/** A load that after this many rounds still stands this share away from where it would settle is on its way, and need not be asked further. */
const FAR_AFTER = 3;
const FAR = 1e-2;
/** Near the voltage below which a load cannot draw its power behind a resistance each round gains little. */
const MOST_FITS = 120;
/** s; a step this short follows a collapse of the voltage, not a transient. */
const SHORTEST = 1e-12;

/**
 * Follows loads of constant power over a step: i = P/v is no sum of exponentials, so each load's current is fitted with
 * constant + fading·e^(−rate·t) through the ends and the middle of the step, the circuit solved exactly with it, and the fit
 * repeated until both agree. The error a quarter and three quarters through decides: the step is halved until it fits.
 *
 * @param solve the state with the loads' currents given
 * @returns undefined where a load has no voltage at which it could draw its power: behind an ESR it may jump to below its knee
 * @param length s to try first
 */
export function powerStep(
  loads: readonly PowerLoad[],
  solve: (currents: ReadonlyMap<number, PowerCurrent>) => StateSolution,
  length: number,
): PowerStep | undefined {
  const settled = settle(loads, solve);
  if (settled !== undefined) return { solution: settled, length: Infinity, next: length };
  for (let step = length; step > SHORTEST; step /= 2) {
    const solution = fit(loads, solve, step);
    if (solution === undefined) continue;
    const error = worstError(loads, solution, step);
    if (error <= TOLERANCE)
      return { solution: solution.solution, length: step, next: error < TOLERANCE / 12 ? 2 * step : step };
  }
  // Nothing fits: the voltage collapses faster than can be followed. Go on with what the load draws now.
  const now = fit(loads, solve, SHORTEST);
  return now && { solution: now.solution, length: SHORTEST, next: SHORTEST };
}

interface Fitted {
  readonly solution: StateSolution;
  readonly currents: ReadonlyMap<number, PowerCurrent>;
}

function fit(
  loads: readonly PowerLoad[],
  solve: (currents: ReadonlyMap<number, PowerCurrent>) => StateSolution,
  step: number,
): Fitted | undefined {
  // From what each draws at the start: with nothing drawn the first guess would swing the other way.
  const idle = solve(new Map(loads.map(({ element }) => [element, { constant: 0, fading: 0, rate: 0 }])));
  let currents = new Map<number, PowerCurrent>(
    loads.map((load) => [load.element, { constant: drawn(load, idle, 0) ?? 0, fading: 0, rate: 0 }]),
  );
  let solution = solve(currents);
  for (let round = 0; round < MOST_FITS; round += 1) {
    const next = new Map<number, PowerCurrent>();
    let change = 0;
    for (const load of loads) {
      const now = solution;
      const points = [0, step / 2, step].map((time) => drawn(load, now, time));
      const [start, middle, end] = points;
      if (start === undefined || middle === undefined || end === undefined) return undefined;
      const before = currents.get(load.element);
      // A guess on the way may turn back; the answer may not.
      const fitted = through(start, middle, end, step) ?? { constant: middle, fading: 0, rate: 0 };
      if (before === undefined) return undefined;
      next.set(load.element, fitted);
      change = Math.max(
        change,
        ...[0, step / 2, step].map((time) => Math.abs(valueAt(fitted, time) - valueAt(before, time)) / start),
      );
    }
    currents = next;
    solution = solve(currents);
    if (change <= TOLERANCE / 100) return { solution, currents };
  }
  return undefined;
}

/** A at an instant; undefined: the voltage is below the range in which the power is constant. */
function drawn(load: PowerLoad, solution: StateSolution, time: number): number | undefined {
  const signal = solution.voltage(load.a, load.b);
  const voltage = signal instanceof ExponentialSum ? signal.at(time) : 0;
  return voltage > CURRENT_LOAD_KNEE / 2 ? load.power / voltage : undefined;
}

/** The exponential through three equally spaced points; a straight line as the slowest of exponentials. undefined: it turns back. */
function through(start: number, middle: number, end: number, step: number): PowerCurrent | undefined {
  const first = middle - start;
  const second = end - middle;
  const size = Math.abs(start) + Math.abs(end);
  if (Math.abs(first) <= 1e-13 * size && Math.abs(second) <= 1e-13 * size)
    return { constant: middle, fading: 0, rate: 0 };
  const ratio = second / first;
  if (!(ratio > 0) || !Number.isFinite(ratio)) return undefined;
  let rate = (-2 * Math.log(ratio)) / step;
  // Nearly straight: an exponential slow enough to look straight, and fast enough not to be a difference of large numbers.
  if (Math.abs(rate * step) < 1e-4) rate = 1e-4 / step;
  const fading = (end - start) / Math.expm1(-rate * step);
  return { constant: start - fading, fading, rate };
}

function valueAt({ constant, fading, rate }: PowerCurrent, time: number): number {
  return constant + fading * Math.exp(-rate * time);
}

function worstError(loads: readonly PowerLoad[], { solution, currents }: Fitted, step: number): number {
  let worst = 0;
  for (const load of loads) {
    const current = currents.get(load.element);
    for (const share of [0.25, 0.5, 0.75, 1]) {
      const wanted = drawn(load, solution, share * step);
      if (wanted === undefined || current === undefined) return Infinity;
      worst = Math.max(worst, Math.abs(valueAt(current, share * step) - wanted) / wanted);
    }
  }
  return worst;
}

/** The solution for ever where every load already draws what it will in the end; undefined: not yet, or never. */
function settle(
  loads: readonly PowerLoad[],
  solve: (currents: ReadonlyMap<number, PowerCurrent>) => StateSolution,
): StateSolution | undefined {
  let solution = solve(new Map(loads.map(({ element }) => [element, { constant: 0, fading: 0, rate: 0 }])));
  let currents = loads.map((load) => drawn(load, solution, 0));
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    if (currents.some((current) => current === undefined)) return undefined;
    const held = currents;
    solution = solve(new Map(loads.map(({ element }, k) => [element, { constant: held[k] ?? 0, fading: 0, rate: 0 }])));
    const ends = loads.map(({ a, b, power }) => {
      const signal = solution.voltage(a, b);
      const voltage = signal instanceof ExponentialSum ? signal.limit() : Number.NaN;
      return voltage > CURRENT_LOAD_KNEE && Number.isFinite(voltage) ? power / voltage : undefined;
    });
    let moved = 0;
    ends.forEach((end, k) => {
      moved = Math.max(moved, end === undefined ? Infinity : Math.abs(end - (held[k] ?? 0)) / end);
    });
    currents = ends;
    if (round === FAR_AFTER && !nears(loads, solution, FAR)) return undefined;
    if (moved > 1e-14) continue;
    // Not only now: what else is still moving in the circuit may yet move the load.
    return nears(loads, solution, SETTLED) ? solution : undefined;
  }
  return undefined;
}

/** Whether each load's voltage stands within a share of its limit, and stays there. */
function nears(loads: readonly PowerLoad[], solution: StateSolution, share: number): boolean {
  return loads.every(({ a, b }) => {
    const signal = solution.voltage(a, b);
    return signal instanceof ExponentialSum && unsettled(signal) <= share * Math.abs(signal.limit());
  });
}

/** The most by which a signal can yet differ from its limit: the sum of what its fading terms amount to. */
function unsettled(signal: ExponentialSum): number {
  const fading = new Map<number, number>();
  const add = (rate: number, amount: number): void => {
    if (rate > 0) fading.set(rate, (fading.get(rate) ?? 0) + amount);
  };
  signal.rates.forEach((rate, k) => {
    add(rate, signal.coefficients[k] as number);
  });
  signal.modeRates.forEach((rate, k) => {
    add(rate, -(signal.driven[k] as number) / rate);
  });
  return [...fading.values()].reduce((sum, amount) => sum + Math.abs(amount), 0);
}
