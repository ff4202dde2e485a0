import type { Box } from '../../transient/box.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import type { Direction } from '../../transient/bounds.js';
import type { Directions, Pair } from '../../transient/network-signs.js';
import type { OneState } from '../../transient/one-state.js';

/** What the heat in a part follows from, at one set of values. */
export interface HeatReading {
  /** s */
  readonly timeConstant: number;
  /** Size of the part's current at the start and in the end, A. */
  readonly first: number;
  readonly last: number;
  /** The link at the start and in the end, ratio to the open-circuit voltage. */
  readonly from: number;
  readonly to: number;
}

export interface HeatQuestion {
  readonly box: Box;
  readonly state: OneState;
  readonly part: CompiledElement;
  readonly link: Pair;
  readonly read: (values: Values) => HeatReading;
  /** The only accumulator's voltage, which all currents grow with; undefined: there are several. */
  readonly voltage: number | undefined;
  /** Ratio that ends the rise; undefined: it is left on for ever. */
  readonly ratio: number | undefined;
  /** V by how much every voltage may be off, and the ratio likewise; 0 where the state is exact. */
  readonly off: number;
  readonly offRatio: number;
}

/**
 * A bound on the heat of a rise in a part: nothing in the ranges lies beyond it.
 *
 * With y the voltage across the part, y₀ at the start and y₁ in the end, σ = τ/R, and q what of the way to its end the link has
 * left at the ratio, E = σ·(y₁²·ln(1/q) + 2·y₁·(y₀ − y₁)·(1 − q) + ½·(y₀ − y₁)²·(1 − q²)), by integrating (y₁ + (y₀ − y₁)·e^(−t/τ))²/R.
 * For y₀ ≥ y₁ ≥ 0 that grows with σ, y₀ and y₁ and falls with q, and each of them has its extremes at a proved corner: so
 * each is taken at its own. Currents fall with their own resistance, but y rises with it and σ falls (its share of the
 * resistance that the capacitor sees is at most all of it).
 */
export function heatBound(question: HeatQuestion, end: 'min' | 'max'): number | undefined {
  const { box, state, part, link, read, voltage, ratio, off, offRatio } = question;
  const own =
    (directions: Directions, itself: Direction): Directions =>
    (index) =>
      index === part.primary ? itself : index === voltage ? undefined : directions(index);
  const scaled = (directions: Directions, itself: Direction): Directions => {
    const rest = own(directions, itself);
    return (index) => (index === voltage ? 1 : rest(index));
  };
  const unscaled = (directions: Directions, itself?: Direction): Directions => {
    const rest = itself === undefined ? directions : own(directions, itself);
    return (index) => (index === voltage ? 0 : rest(index));
  };
  if (voltage === undefined) return undefined;
  const at = (directions: Directions, wanted: 'min' | 'max'): { reading: HeatReading; ohms: number } | undefined => {
    const values = corner(box, directions, wanted);
    return values && { reading: read(values), ohms: values[part.primary] as number };
  };
  const slow = at(unscaled(state.timeConstant(), -1), end);
  const first = at(scaled(state.firstCurrent(part), 1), end);
  const last = at(scaled(state.lastCurrent(part), 1), end);
  const other = end === 'max' ? 'min' : 'max';
  const to = at(unscaled(state.steadyVoltage(link)), other);
  if (slow === undefined || first === undefined || last === undefined || to === undefined) return undefined;
  const share = slow.reading.timeConstant / slow.ohms;
  const [start, rest] = [first.reading.first * first.ohms, last.reading.last * last.ohms];
  if (rest > start) return undefined;
  const left =
    ratio === undefined ? 0 : leftAt(question, end, to.reading.to, ratio + (end === 'max' ? offRatio : -offRatio));
  if (left === undefined) return undefined;
  const heat = heatOf(share, start, rest, left);
  if (off === 0) return heat;
  // |y| is off by no more than `off` throughout, so √E by no more than √(∫off²/R dt).
  const blur = off * Math.sqrt(share * Math.log(1 / left));
  return end === 'max' ? (Math.sqrt(heat) + blur) ** 2 : Math.max(0, Math.sqrt(heat) - blur) ** 2;
}

/** What of the way to its end the link has left when it is at the ratio: at its least for the most heat; 0 where it never gets there. */
function leftAt(
  { box, state, link, read }: HeatQuestion,
  end: 'min' | 'max',
  to: number,
  ratio: number,
): number | undefined {
  if (to <= ratio) return 0;
  if (end === 'max') return 1 - ratio / to;
  const directions = state.risingVoltage(link);
  // Whatever the capacitors' own resistance, the link starts highest with most of it.
  const values = corner(box, (index) => directions(index) ?? 1, 'max');
  const from = values && read(values).from;
  return from === undefined || from >= ratio ? undefined : (to - ratio) / (to - from);
}

function heatOf(share: number, start: number, rest: number, left: number): number {
  const moving = start - rest;
  const steady = rest === 0 ? 0 : rest * rest * Math.log(1 / left);
  return share * (steady + 2 * rest * moving * (1 - left) + 0.5 * moving * moving * (1 - left * left));
}

/** Every uncertain parameter at the end that its direction names; undefined where one has none. */
export function corner({ nominal, uncertain }: Box, directions: Directions, end: 'min' | 'max'): Values | undefined {
  const values = nominal.slice();
  for (const { index, low, high } of uncertain) {
    const sign = directions(index);
    if (sign === undefined) return undefined;
    if (sign !== 0) values[index] = sign > 0 === (end === 'max') ? high : low;
  }
  return values;
}
