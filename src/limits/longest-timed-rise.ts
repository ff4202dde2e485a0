/**
 * A timer that may decide runs for the longer of twice the time of the rise and that time plus half a second: EV.5.6.2 of
 * collegiate-ev-2024.
 */
const TIMER_FACTOR = 2;
/** s */
const TIMER_ADDS = 0.5;

/** s that a timer must run at least for a rise of so many s. */
export function shortestTimer(rise: number): number {
  return Math.max(TIMER_FACTOR * rise, rise + TIMER_ADDS);
}

/** s that a rise may take, up to the ruleset's level, for a timer of so many s: d ≥ max(2t, t + 0.5) ⇔ t ≤ min(d/2, d − 0.5). */
export function longestTimedRise(delay: number): number {
  return Math.max(0, Math.min(delay / TIMER_FACTOR, delay - TIMER_ADDS));
}
