import type { Box, Uncertain } from './box.js';
import type { Values } from './compiled-circuit.js';

/** Rounds of flipping one parameter after the other from end to end. */
const SWEEPS = 4;
/** Shares of a range tried for an extreme inside it. */
const INNER = [0.25, 0.5, 0.75];
/** Share of a range that is next to its end. */
const NEXT = 0.02;

/** A value of a figure, and where. */
export interface Found {
  readonly value: number;
  readonly values: Values;
}

/** A figure that remembers the least and the most of all that it was asked for: a search that went another way has still seen it. */
export class SeenFigure {
  private readonly ends = new Map<1 | -1, Found>();

  constructor(private readonly figure: (values: Values) => number) {}

  readonly at = (values: Values): number => {
    const value = this.figure(values);
    this.take(value, values);
    return value;
  };

  take(value: number, values: Values): void {
    for (const wanted of [1, -1] as const) {
      const known = this.ends.get(wanted);
      if (known === undefined || isBeyond(value, known.value, wanted))
        this.ends.set(wanted, { value, values: values.slice() });
    }
  }

  /** The most (1) or the least (−1) of it so far. */
  best(wanted: 1 | -1): Found | undefined {
    return this.ends.get(wanted);
  }
}

/** What moving one parameter alone to the far end of its range does, the others at nominal. */
export function singleEffects(
  box: Box,
  open: readonly Uncertain[],
  figure: (values: Values) => number,
  nominal: number,
): Map<Uncertain, number> {
  const effects = new Map<Uncertain, number>();
  const values = box.nominal.slice();
  for (const parameter of open) {
    const middle = box.nominal[parameter.index] as number;
    const high = parameter.high > middle;
    values[parameter.index] = high ? parameter.high : parameter.low;
    const effect = (figure(values) - nominal) * (high ? 1 : -1);
    // Never reached at one end is an effect without bound.
    effects.set(parameter, Number.isNaN(effect) ? 0 : effect);
    values[parameter.index] = middle;
  }
  return effects;
}

/** Every corner of the free parameters, each one step from the one before (Gray's code). */
export function bestCorner(
  start: Values,
  free: readonly Uncertain[],
  figure: (values: Values) => number,
  wanted: 1 | -1,
): Found {
  for (const { index, low } of free) start[index] = low;
  let best: Found = { value: figure(start), values: start.slice() };
  for (let count = 1; count < 2 ** free.length; count += 1) {
    // The lowest set bit of the count is the one that changes.
    const { index, low, high } = free[31 - Math.clz32(count & -count)] as Uncertain;
    start[index] = start[index] === low ? high : low;
    const value = figure(start);
    if (isBeyond(value, best.value, wanted)) best = { value, values: start.slice() };
  }
  return best;
}

/** What is searched, and how. */
export interface Search {
  readonly free: readonly Uncertain[];
  readonly figure: (values: Values) => number;
  readonly wanted: 1 | -1;
  /** True where points inside a parameter's range are tried, too. */
  readonly inner?: (index: number) => boolean;
  /** How often each parameter has its turn, at most. */
  readonly rounds?: number;
}

/** Each parameter in turn to its other end, or inside its range, where that helps and as long as any does; what was given where none does. */
export function search(start: Found, { free, figure, wanted, inner, rounds = SWEEPS }: Search): Found {
  let best = start;
  const consider = (values: Values): boolean => {
    const value = figure(values);
    if (!isBeyond(value, best.value, wanted)) return false;
    best = { value, values: values.slice() };
    return true;
  };
  for (let round = 0; round < rounds; round += 1) {
    const before = best;
    for (const parameter of free) {
      const here = best.values[parameter.index] as number;
      const trial = best.values.slice();
      trial[parameter.index] = here === parameter.low ? parameter.high : parameter.low;
      consider(trial);
      if (inner?.(parameter.index) === true) inside(best.values, parameter, consider);
    }
    if (best === before) break;
  }
  return best;
}

/** Whether a value lies further out than another, up (1) or down (−1). */
export function isBeyond(value: number, than: number, wanted: 1 | -1): boolean {
  return wanted === 1 ? value > than : value < than;
}

/** Inner points of one range, then halving steps around the best of them. */
function inside(from: Values, parameter: Uncertain, consider: (values: Values) => boolean): void {
  const width = parameter.high - parameter.low;
  const trial = from.slice();
  const start = from[parameter.index] as number;
  let best = start;
  const attempt = (value: number): void => {
    if (value < parameter.low || value > parameter.high) return;
    trial[parameter.index] = value;
    if (consider(trial)) best = value;
  };
  // A summit next to the end where the search stands shows as a slope that leads away from it.
  attempt(start + (start > parameter.low + width / 2 ? -NEXT : NEXT) * width);
  for (const fraction of INNER) attempt(parameter.low + fraction * width);
  if (best === start) return;
  for (let step = width / 8; step > width * 1e-7; step /= 2) {
    const around = best;
    attempt(around - step);
    attempt(around + step);
  }
}
