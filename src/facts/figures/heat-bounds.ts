import type { Box } from '../../transient/box.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import type { Pair } from '../../transient/sign-question.js';
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
  /** One of the voltages that add up to the open-circuit voltage and act as one: all currents grow with each. */
  readonly isSummed: (index: number) => boolean;
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
  const { ratio, off, offRatio } = question;
  const ends = endsOf(question, end);
  const to = at(
    question,
    unscaled(question, question.state.steadyVoltage(question.link)),
    end === 'max' ? 'min' : 'max',
  );
  if (ends === undefined || to === undefined) return undefined;
  const { share, start, rest } = ends;
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

/**
 * A rise left on for ever: W that stay at most in the end, and J that come at most beyond those that stay.
 *
 * With the same letters P − y₁²/R comes to σ·½·(y₀ − y₁)·(y₀ + 3·y₁) in all, which grows with y₀ and is largest at y₁ = y₀/3; and
 * y₁²/R = y₁·i₁, each at its own corner. What is off by no more than `off` is no more than if y₀ and y₁ were as much larger.
 */
export function lastingBound(question: HeatQuestion): { readonly steady: number; readonly energy: number } | undefined {
  const { state, part, off } = question;
  const ends = endsOf(question, 'max');
  const last = at(question, scaled(question, state.lastCurrent(part), -1), 'max');
  if (ends === undefined || last === undefined || ends.rest > ends.start) return undefined;
  const [start, rest] = [ends.start + off, ends.rest + off];
  const least = Math.min(rest, start / 3);
  return {
    steady: rest * (last.reading.last + off / last.ohms),
    energy: 0.5 * ends.share * (start - least) * (start + 3 * least),
  };
}

/** σ, y₀ and y₁, each at its own corner. */
function endsOf(question: HeatQuestion, end: 'min' | 'max') {
  const { state, part } = question;
  const slow = at(question, unscaled(question, state.timeConstant(), -1), end);
  const first = at(question, scaled(question, state.firstCurrent(part), 1), end);
  const last = at(question, scaled(question, state.lastCurrent(part), 1), end);
  if (slow === undefined || first === undefined || last === undefined) return undefined;
  return {
    share: slow.reading.timeConstant / slow.ohms,
    start: first.reading.first * first.ohms,
    rest: last.reading.last * last.ohms,
  };
}

function at({ box, part, read }: HeatQuestion, directions: Directions, end: 'min' | 'max') {
  const values = corner(box, directions, end);
  return values && { reading: read(values), ohms: values[part.primary] as number };
}

/** Directions of what grows with the voltages, `itself` being that in the part's own resistance. */
function scaled({ part, isSummed }: HeatQuestion, directions: Directions, itself: Direction): Directions {
  return (index) => (isSummed(index) ? 1 : index === part.primary ? itself : directions(index));
}

/** Directions of what the voltages do not move. */
function unscaled({ part, isSummed }: HeatQuestion, directions: Directions, itself?: Direction): Directions {
  return (index) => (isSummed(index) ? 0 : index === part.primary && itself !== undefined ? itself : directions(index));
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
