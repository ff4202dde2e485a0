import type { Step } from '../circuit/model.js';
import type { Topology } from '../facts/facts.js';

/** When the last isolation relay closes, as far as the order of steps alone tells. */
export type ClosingMoment =
  | { readonly kind: 'never' }
  /** The pre-charge path is not complete by then. */
  | { readonly kind: 'unprepared' }
  /** At a measured ratio at or above the level, the path unbroken since. */
  | { readonly kind: 'measured' }
  /** At a measured ratio below the level. */
  | { readonly kind: 'early'; readonly ratio: number }
  /** The path was opened in between. */
  | { readonly kind: 'sag'; readonly step: Step }
  /** So many s after the path is complete. */
  | { readonly kind: 'timed'; readonly elapsed: number }
  | { readonly kind: 'unknown'; readonly step: Step };

/**
 * Reads an order of steps: the pre-charge path is complete once every completing relay and a pre-charge relay are closed; what
 * counts is the first step after that which closes a bridged relay.
 * @param level ratio that the link must have
 */
export function closingMoment(steps: readonly Step[], topology: Topology, level: number): ClosingMoment {
  const closed = new Set<string>();
  let at: number | undefined = 0;
  let completeAt: number | undefined;
  let complete = false;
  let measured = false;
  let broken = false;
  for (const step of steps) {
    at = timeOf(step, at);
    const reachesLevel = step.when !== undefined && !step.when.falling && step.when.linkRatio >= level;
    // Once the path is complete the link only rises, so a level once measured stays until the path opens.
    if (complete && reachesLevel) measured = true;
    const closes = step.close.some((id) => topology.bridgedRelays.includes(id));
    if (closes) {
      if (!complete) return { kind: 'unprepared' };
      if (reachesLevel) return { kind: 'measured' };
      if (broken) return { kind: 'sag', step };
      if (measured) return { kind: 'measured' };
      if (step.when !== undefined && step.when.linkRatio < level) return { kind: 'early', ratio: step.when.linkRatio };
      if (at === undefined || completeAt === undefined) return { kind: 'unknown', step };
      return { kind: 'timed', elapsed: at - completeAt };
    }
    if (step.release) closed.clear();
    for (const id of step.close) closed.add(id);
    for (const id of step.open) closed.delete(id);
    const now =
      topology.completingRelays.every((id) => closed.has(id)) && topology.prechargeRelays.some((id) => closed.has(id));
    if (now && !complete) completeAt = at;
    if (!now && complete) broken = true;
    complete = complete || now;
  }
  return { kind: 'never' };
}

/** undefined once a step waits for a voltage: from then on only differences are known. */
function timeOf(step: Step, before: number | undefined): number | undefined {
  if (step.at !== undefined) return step.at;
  if (step.after !== undefined) return before === undefined ? undefined : before + step.after;
  return undefined;
}
