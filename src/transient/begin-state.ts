import { FOLLOWED_ACCURACY, noteAccuracy } from './accuracy.js';
import type { Modes } from './compiled-circuit.js';
import { portsOf } from './ports-of.js';
import { powerStep } from './power-step.js';
import { StateSolution, type StateStart } from './state-solution.js';
import type { TimelineInput } from './timeline-input.js';
import { spend, spendPowerStep } from './work-budget.js';

/** A switch state that has begun. */
export interface BegunState {
  readonly solution: StateSolution;
  /** s for which it holds: Infinity but for loads of constant power. */
  readonly lasts: number;
  /** s, a good length to try for the next step that follows such loads. */
  readonly next: number;
}

/**
 * Solves a switch state from its start; loads of constant power are followed over one step.
 * @returns by index the loads that find no voltage at which they could draw their power: below their knee they are resistances
 */
export function beginState(
  { compiled, values }: Pick<TimelineInput, 'compiled' | 'values'>,
  present: Modes,
  { powerStep: length, ...start }: StateStart & { readonly powerStep: number },
): BegunState | { readonly powerless: readonly number[] } {
  spend(compiled);
  const modes = present.slice();
  const ports = portsOf(compiled, values, modes);
  if (ports.length === 0)
    return { solution: new StateSolution(compiled, values, modes, start), lasts: Infinity, next: length };
  spendPowerStep(compiled, ports.length);
  noteAccuracy(compiled, FOLLOWED_ACCURACY);
  const solve = (powerCurrents: StateStart['powerCurrents']): StateSolution =>
    new StateSolution(compiled, values, modes, { ...start, ...(powerCurrents && { powerCurrents }) });
  const followed = powerStep(ports, solve, length);
  if (followed === undefined) return { powerless: ports.flatMap(({ loads }) => loads.map(({ element }) => element)) };
  return { solution: followed.solution, lasts: followed.length, next: followed.next };
}
