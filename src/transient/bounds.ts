import type { Box, Uncertain } from './box.js';
import type { Values } from './compiled-circuit.js';

/** What is proved of a figure's dependence on one parameter over the whole box: rises, falls, does not depend, or not proved. */
export type Direction = 1 | -1 | 0 | undefined;

/** A figure's dependence on the parameters, by their index. */
export interface Dependence {
  readonly direction: (index: number) => Direction;
  /** Where nothing is proved: the direction that is likely. Its corner is taken as it is, and the bound called searched. */
  readonly likely?: (index: number) => Direction;
  /** True where the extreme may lie inside the range of an unproved parameter; default: only its ends are tried. */
  readonly inner?: (index: number) => boolean;
}

export interface Extreme {
  /** ±Infinity: unbounded. */
  readonly value: number;
  /** Where it lies. */
  readonly values: Values;
}

export interface Bounds {
  readonly nominal: number;
  readonly min: Extreme;
  readonly max: Extreme;
  /** The same with every parameter whose tolerance was only assumed at its nominal value. */
  readonly statedMin: number;
  readonly statedMax: number;
  readonly proved: boolean;
  /** Parameters (by index) whose assumed range moves the figure. */
  readonly assumedThatMatter: readonly number[];
}

/** Rounds of flipping one parameter after the other from end to end. */
const SWEEPS = 4;
/** A parameter whose single effect is below this share of the largest keeps the end that its single effect points to. */
const MINOR = 1e-2;
/** Parameters searched at most, those with the largest single effects: it keeps the cost of a figure in bounds. */
const MOST_SEARCHED = 8;
/** Relative; rounding between one figure and the same by another way. */
const SLACK = 1e-9;
/** Shares of a range tried for an extreme inside it. */
const INNER = [0.25, 0.5, 0.75];

/**
 * The extremes of a figure over a box.
 *
 * Parameters with a proved direction sit at one end; with all of them proved that corner is the answer and nothing is searched.
 * The rest are searched from the corner that their single effects point to: those that matter are flipped to their other end,
 * or moved inside their range, one at a time and as long as that helps. The cost grows with their number, not with its power of two.
 *
 * @param figure may answer ±Infinity (never) but not NaN
 */
export function boundsOf(box: Box, figure: (values: Values) => number, dependence: Dependence): Bounds {
  const bounds = cornered(box, figure, dependence);
  const { nominal, min, max } = bounds;
  const slack = Number.isFinite(nominal) ? SLACK * Math.abs(nominal) : 0;
  if (min.value <= nominal + slack && max.value >= nominal - slack) return bounds;
  // A corner on the wrong side of the nominal value refutes the directions that led there: search without them.
  return cornered(box, figure, {
    direction: (index) => (dependence.direction(index) === 0 ? 0 : undefined),
    inner: () => true,
  });
}

function cornered(box: Box, figure: (values: Values) => number, { direction, likely, inner }: Dependence): Bounds {
  const nominal = figure(box.nominal);
  const known: { parameter: Uncertain; sign: number }[] = [];
  const open: Uncertain[] = [];
  let proved = true;
  for (const parameter of box.uncertain) {
    const certain = direction(parameter.index);
    if (certain === undefined) proved = false;
    const sign = certain ?? likely?.(parameter.index);
    if (sign === undefined) open.push(parameter);
    else if (sign !== 0) known.push({ parameter, sign });
  }
  const single = singleEffects(box, open, figure, nominal);
  const largest = Math.max(0, ...[...single.values()].map(Math.abs));
  const extreme = (wanted: 1 | -1, assumed: boolean): Extreme => {
    const values = Float64Array.from(box.nominal);
    for (const { parameter, sign } of known) {
      if (assumed || !parameter.assumed) values[parameter.index] = sign === wanted ? parameter.high : parameter.low;
    }
    const free = assumed ? open : open.filter((parameter) => !parameter.assumed);
    for (const parameter of free)
      values[parameter.index] = (single.get(parameter) ?? 0) * wanted >= 0 ? parameter.high : parameter.low;
    const inside = inner ?? (() => false);
    const major = free
      .filter((parameter) => Math.abs(single.get(parameter) ?? 0) >= MINOR * largest)
      .sort((x, y) => Math.abs(single.get(y) ?? 0) - Math.abs(single.get(x) ?? 0) || x.index - y.index)
      .slice(0, MOST_SEARCHED);
    return search(values, major, figure, wanted, inside);
  };
  const max = extreme(1, true);
  const min = extreme(-1, true);
  const assumed = box.uncertain.filter((parameter) => parameter.assumed);
  return {
    nominal,
    min,
    max,
    statedMax: assumed.length === 0 ? max.value : extreme(1, false).value,
    statedMin: assumed.length === 0 ? min.value : extreme(-1, false).value,
    proved,
    assumedThatMatter: assumed
      .filter((parameter) => direction(parameter.index) !== 0)
      .map((parameter) => parameter.index),
  };
}

/** What moving one parameter alone to the far end of its range does, the others at nominal. */
function singleEffects(
  box: Box,
  open: readonly Uncertain[],
  figure: (values: Values) => number,
  nominal: number,
): Map<Uncertain, number> {
  const effects = new Map<Uncertain, number>();
  const values = Float64Array.from(box.nominal);
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

function search(
  start: Values,
  free: readonly Uncertain[],
  figure: (values: Values) => number,
  wanted: 1 | -1,
  inner: (index: number) => boolean,
): Extreme {
  let best: Extreme = { value: figure(start), values: start };
  const consider = (values: Values): boolean => {
    const value = figure(values);
    if (!(wanted === 1 ? value > best.value : value < best.value)) return false;
    best = { value, values: Float64Array.from(values) };
    return true;
  };
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    let moved = false;
    for (const parameter of free) {
      const here = best.values[parameter.index] as number;
      const trial = Float64Array.from(best.values);
      trial[parameter.index] = here === parameter.low ? parameter.high : parameter.low;
      if (consider(trial)) moved = true;
      if (inner(parameter.index) && inside(best.values, parameter, consider)) moved = true;
    }
    if (!moved) break;
  }
  return best;
}

/** Inner points of one range, then halving steps around the best of them. */
function inside(from: Values, parameter: Uncertain, consider: (values: Values) => boolean): boolean {
  const width = parameter.high - parameter.low;
  const trial = Float64Array.from(from);
  const start = from[parameter.index] as number;
  let best = start;
  const attempt = (value: number): void => {
    if (value < parameter.low || value > parameter.high) return;
    trial[parameter.index] = value;
    if (consider(trial)) best = value;
  };
  for (const fraction of INNER) attempt(parameter.low + fraction * width);
  if (best === start) return false;
  for (let step = width / 8; step > width * 1e-7; step /= 2) {
    const around = best;
    attempt(around - step);
    attempt(around + step);
  }
  return true;
}
