import type { Thermal } from './thermal-peak.js';

/** A row of equal pulses as far as their bounds go. */
export interface PulseRow {
  /** Infinity: without end. */
  readonly count: number;
  /** s from the start of one pulse to that of the next, no pulse being longer: at least this for the most heat, at most this for the least. */
  readonly interval: number;
}

/**
 * °C that a resistor does not exceed, whatever the course of its pulses within their bounds.
 *
 * A single thermal mass at θ above its ambient obeys C·θ′ = P − θ/R, so with P ≤ p throughout θ never passes p·R. Of one pulse that
 * brings no more than E in all, most is left at an instant where the last of it came as late and as fast as it can: p for E/p just
 * before, θ = p·R·(1 − e^(−E/(p·τ))), τ = R·C, which is at most E/C. Of n pulses split each where in its period the instant stands
 * in its own: what came before that point has since aged by 0, Δ, 2Δ, …, and what came after it by no less than the rest of its
 * own period and 0, Δ, 2Δ, … more. Both are at most q⁰ + … + qⁿ⁻¹ = (1 − qⁿ)/(1 − q) times what one pulse leaves, q = e^(−Δ/τ). Derived here.
 *
 * A power that may stay for ever is taken by itself: it adds no more than itself times R, and E is then what comes beyond it.
 *
 * @param most J of each pulse beyond what is steady, W at any time at most; Infinity: nothing bounds it
 * @returns Infinity where neither is bounded
 */
export function hottestPossible(
  { ambient, resistance, capacitance }: Thermal,
  most: { readonly energy: number; readonly power: number; readonly steady: number },
  { count, interval }: PulseRow,
): number {
  const { energy, power, steady } = most;
  if (power === 0) return ambient;
  const timeConstant = resistance * capacitance;
  const settled = power * resistance;
  const one = power === Infinity ? energy / capacitance : settled * -Math.expm1(-energy / (power * timeConstant));
  const left = one === 0 ? 0 : one * sumOfLeft(count, interval / timeConstant);
  return ambient + Math.min(settled, steady * resistance + left);
}

/**
 * °C that it gets to at least: at the end of the last pulse, as if all heat had come at the pulses' starts.
 * @param least J of each pulse
 * @param longest s that a pulse lasts at most
 */
export function coolestPossible(
  { ambient, resistance, capacitance }: Thermal,
  least: number,
  longest: number,
  { count, interval }: PulseRow,
): number {
  const timeConstant = resistance * capacitance;
  if (longest === Infinity) return ambient;
  return (
    ambient +
    (least / capacitance) *
      Math.exp(-longest / timeConstant) *
      sumOfLeft(count, Math.max(interval, longest) / timeConstant)
  );
}

/** q⁰ + q¹ + … + qⁿ⁻¹ with q = e^(−decay). */
function sumOfLeft(count: number, decay: number): number {
  if (decay === 0) return count;
  if (decay === Infinity) return Math.min(count, 1);
  return (count === Infinity ? 1 : -Math.expm1(-decay * count)) / -Math.expm1(-decay);
}
