import type { Box, Uncertain } from './box.js';
import type { Values } from './compiled-circuit.js';
import { bestCorner, type Found, isBeyond, search, SeenFigure, singleEffects } from './search-corners.js';

/** What is proved of a figure's dependence on one parameter over the whole box: rises, falls, does not depend, or not proved. */
export type Direction = 1 | -1 | 0 | undefined;

/** The direction of a figure in each parameter, by its index. */
export type Directions = (index: number) => Direction;

/** A figure's dependence on the parameters, by their index. */
export interface Dependence {
  readonly direction: Directions;
  /** Where nothing is proved: the direction that is likely. Its corner is taken as it is, and the bound called searched. */
  readonly likely?: Directions | undefined;
  /** True where the extreme may lie inside the range of an unproved parameter; default: only its ends are tried. */
  readonly inner?: ((index: number) => boolean) | undefined;
  /** True where the figure runs one way in each parameter alone, whatever the others: then its extremes are among the corners. */
  readonly oneWay?: boolean | undefined;
  /** True where a figure that no rule asks for is not worth a second search when a likely direction proves wrong. */
  readonly rough?: boolean | undefined;
  /** Where not all is proved: a value that none in the box lies beyond at that end; undefined: none is known. */
  readonly outer?: ((end: 'min' | 'max') => number | undefined) | undefined;
}

export interface Extreme {
  /** Nothing in the box lies beyond, where that is proved or the gap known. ±Infinity: unbounded. */
  readonly value: number;
  /** By how much it may lie beyond what was found, ≥ 0; null: nothing bounds that. */
  readonly gap: number | null;
  /** Where what was found lies. */
  readonly values: Values;
}

export interface Bounds {
  readonly nominal: number;
  readonly min: Extreme;
  readonly max: Extreme;
  /** What was found with every parameter whose tolerance was only assumed at its nominal value: attained, not bounded. */
  readonly statedMin: number;
  readonly statedMax: number;
  readonly proved: boolean;
  /** Parameters (by index) whose assumed range moves the figure. */
  readonly assumedThatMatter: readonly number[];
}

/** A parameter whose single effect is below this share of the largest keeps the end that its single effect points to. */
const MINOR = 1e-2;
/** Parameters searched at most, those with the largest single effects: it keeps the cost of a figure in bounds. */
const MOST_SEARCHED = 8;
/** Relative; rounding between one figure and the same by another way. */
const SLACK = 1e-9;
/** Unproved parameters up to which every corner is tried where the extremes are among them: a thousand evaluations. */
const MOST_CORNERS = 10;
/**
 * Relative; found this near to what nothing lies beyond, an extreme is not searched for any further: the gap says how near, and
 * half a percent is far below what any part's own tolerance does.
 */
const CLOSE = 5e-3;

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
  if (box.only !== undefined) return oneEnd(box, box.only, figure, dependence);
  const nominal = figure(box.nominal);
  const corners = new Corners(box, figure, dependence, nominal);
  const min = corners.extreme('min');
  const max = corners.extreme('max');
  const slack = Number.isFinite(nominal) ? SLACK * Math.abs(nominal) : 0;
  const told = min.value <= nominal + slack && max.value >= nominal - slack;
  if (told || (dependence.rough === true && !corners.proved)) return boundsAt(corners, min, max, dependence);
  // A corner on the wrong side of the nominal value refutes the directions that led there: search without them.
  const { direction } = dependence;
  const open: Dependence = { direction: (index) => (direction(index) === 0 ? 0 : undefined), inner: () => true };
  const again = new Corners(box, figure, open, nominal);
  return boundsAt(again, again.extreme('min'), again.extreme('max'), open);
}

/** One end alone; where its corner is proved that is a single evaluation. */
function oneEnd(box: Box, only: 'min' | 'max', figure: (values: Values) => number, dependence: Dependence): Bounds {
  const corners = new Corners(box, figure, dependence, undefined);
  const end = corners.seen(only, corners.extreme(only));
  const { value } = end;
  const proved = corners.proved || end.gap === 0;
  return { nominal: value, min: end, max: end, statedMin: value, statedMax: value, proved, assumedThatMatter: [] };
}

function boundsAt(corners: Corners, min: End, max: End, { direction }: Dependence): Bounds {
  const assumed = corners.box.uncertain.filter((parameter) => parameter.assumed);
  const ends = { min: corners.seen('min', min), max: corners.seen('max', max) };
  return {
    nominal: corners.nominal,
    ...ends,
    statedMin: assumed.length === 0 ? min.found : corners.found(-1, false).value,
    statedMax: assumed.length === 0 ? max.found : corners.found(1, false).value,
    // What was found to reach what nothing lies beyond is as good as proved, however it was found.
    proved: corners.proved || (ends.min.gap === 0 && ends.max.gap === 0),
    assumedThatMatter: assumed
      .filter((parameter) => direction(parameter.index) !== 0)
      .map((parameter) => parameter.index),
  };
}

/** An end as answered, and what was found of it. */
interface End extends Extreme {
  readonly found: number;
}

/** The corners that a figure's directions lead to, and the search among those that they leave open. */
class Corners {
  readonly proved: boolean;
  readonly nominal: number;
  private readonly known: { readonly parameter: Uncertain; readonly sign: number }[] = [];
  private readonly open: Uncertain[] = [];
  private readonly single: ReadonlyMap<Uncertain, number>;

  constructor(
    readonly box: Box,
    given: (values: Values) => number,
    { direction, likely, inner, oneWay, outer }: Dependence,
    nominal: number | undefined,
  ) {
    this.outer = outer ?? (() => undefined);
    const unproved = box.uncertain.filter(({ index }) => direction(index) === undefined).length;
    this.all = oneWay === true && unproved > 0 && unproved <= MOST_CORNERS;
    for (const parameter of box.uncertain) {
      const sign = direction(parameter.index) ?? (this.all ? undefined : likely?.(parameter.index));
      if (sign === undefined) this.open.push(parameter);
      else if (sign !== 0) this.known.push({ parameter, sign });
    }
    this.proved = unproved === 0 || this.all;
    this.remembered = this.proved ? undefined : new SeenFigure(given);
    const figure = this.remembered?.at ?? given;
    this.figure = figure;
    if (nominal !== undefined) this.remembered?.take(nominal, box.nominal);
    this.inner = inner ?? (() => false);
    this.nominal = nominal ?? (this.open.length === 0 ? Number.NaN : figure(box.nominal));
    this.single = this.all ? new Map() : singleEffects(box, this.open, figure, this.nominal);
  }

  private readonly figure: (values: Values) => number;
  private readonly remembered: SeenFigure | undefined;
  private readonly inner: (index: number) => boolean;
  private readonly outer: (end: 'min' | 'max') => number | undefined;
  /** True where every corner is tried. */
  private readonly all: boolean;

  /** What was found at an end, moved out to what is known to bound it. */
  extreme(end: 'min' | 'max'): End {
    const wanted = end === 'max' ? 1 : -1;
    const outer = this.proved ? undefined : this.outer(end);
    const bound = outer === undefined || Number.isNaN(outer) ? undefined : outer;
    return this.ended(this.found(wanted, true, bound), wanted, bound);
  }

  /** An end, or what was seen beyond it on the way to either: every value asked for occurs. */
  seen(end: 'min' | 'max', answered: End): End {
    const wanted = end === 'max' ? 1 : -1;
    const best = this.remembered?.best(wanted);
    if (best === undefined || !isBeyond(best.value, answered.found, wanted)) return answered;
    return this.ended(best, wanted, answered.gap === null ? undefined : answered.value);
  }

  private ended(found: Found, wanted: 1 | -1, outer: number | undefined): End {
    // What was found beyond it shows that it bounds nothing.
    const slack = SLACK * Math.abs(outer ?? 0);
    const bound = outer !== undefined && isBeyond(found.value, outer + wanted * slack, wanted) ? undefined : outer;
    const value = bound !== undefined && isBeyond(bound, found.value, wanted) ? bound : found.value;
    const beyond = value === found.value ? 0 : Math.abs(value - found.value);
    const open = beyond <= SLACK * Math.abs(value) ? 0 : beyond;
    return { value, gap: this.proved || bound !== undefined ? open : null, values: found.values, found: found.value };
  }

  /**
   * @param assumed false: parameters whose tolerance was only assumed stay at their nominal value
   * @param bound nothing lies beyond
   */
  found(wanted: 1 | -1, assumed: boolean, bound?: number): Found {
    const isClose = ({ value }: Found): boolean =>
      bound !== undefined && Number.isFinite(bound) && Math.abs(bound - value) <= CLOSE * Math.abs(bound);
    const values = this.box.nominal.slice();
    for (const { parameter, sign } of this.known) {
      if (assumed || !parameter.assumed) values[parameter.index] = sign === wanted ? parameter.high : parameter.low;
    }
    const free = assumed ? this.open : this.open.filter((parameter) => !parameter.assumed);
    if (this.all) return bestCorner(values, free, this.figure, wanted);
    const effect = (parameter: Uncertain): number => this.single.get(parameter) ?? 0;
    let largest = 0;
    for (const each of this.single.values()) largest = Math.max(largest, Math.abs(each));
    for (const parameter of free)
      values[parameter.index] = effect(parameter) * wanted >= 0 ? parameter.high : parameter.low;
    const ranked = free.toSorted((x, y) => Math.abs(effect(y)) - Math.abs(effect(x)) || x.index - y.index);
    const major = ranked.filter((parameter) => Math.abs(effect(parameter)) >= MINOR * largest).slice(0, MOST_SEARCHED);
    const minor = ranked.filter((parameter) => !major.includes(parameter));
    const { figure, inner } = this;
    const from = (corner: Values): Found => {
      const start = { value: figure(corner), values: corner };
      if (isClose(start)) return start;
      const found = search(start, { free: major, figure, wanted, inner });
      // What does next to nothing at the nominal values may do much at a corner: two equal packs exchange nothing, unequal ones do.
      const flipped = search(found, { free: minor, figure, wanted, rounds: 1 });
      return flipped === found ? found : search(flipped, { free: major, figure, wanted, inner });
    };
    const near = from(values);
    if (major.length < 2 || isClose(near)) return near;
    // The size of what may go either way has a summit on each side: look from the corner across, too.
    const across = values.slice();
    for (const { index, low, high } of major) across[index] = values[index] === low ? high : low;
    const far = from(across);
    return isBeyond(far.value, near.value, wanted) ? far : near;
  }
}
