import { createFacts } from '../../facts/create-facts.js';
import type { Facts, LastClosure } from '../../facts/facts.js';

export interface RiseTime {
  readonly min: number | null;
  /** null: some car in the ranges never gets there. */
  readonly max: number | null;
  /** Whether the last relay waits for a voltage, at whatever step. */
  readonly measured: boolean;
}

/** s from the closing of the pre-charge path to the command to the last relay; `min` null: it never comes. */
export function riseTime(facts: Facts): RiseTime {
  const { circuit, conditions, rise, sequence, topology, lastClosure } = facts;
  const closing = sequence.steps.findIndex(({ close }) => close.some((id) => topology.bridgedRelays.includes(id)));
  const measured = sequence.steps.slice(0, closing + 1).some(({ when }) => when !== undefined);
  const { threshold = conditions.threshold, comparisonError = 0 } = circuit.control.precharge ?? {};
  const level = sequence.source === 'stated' ? lastClosure?.waitsFor : measured ? threshold : undefined;
  // An order that is never through at nominal values has no click to wait for, whatever the comparison's error.
  const never = lastClosure === undefined || lastClosure.time.nominal === null;
  if (level !== undefined && (sequence.source === 'default' || !never)) {
    return {
      measured,
      min: ends(rise.timeTo(level - comparisonError)).min,
      max: ends(rise.timeTo(level + comparisonError)).max,
    };
  }
  const early = closureAt(facts, -comparisonError);
  const late = closureAt(facts, comparisonError);
  if (never || early === undefined) return { measured, min: null, max: null };
  return { measured, min: ends(early.time).min, max: late === undefined ? null : ends(late.time).max };
}

/** The closing of the last relay with every rising level that the order waits for moved by the comparison's error. */
function closureAt({ circuit, conditions, sequence, lastClosure }: Facts, error: number): LastClosure | undefined {
  if (error === 0 || sequence.source !== 'stated') return lastClosure;
  const moved = sequence.steps.map(({ when, ...step }) => {
    if (when === undefined) return step;
    return { ...step, when: when.falling ? when : { ...when, linkRatio: when.linkRatio + error } };
  });
  return createFacts({ ...circuit, control: { ...circuit.control, sequence: moved } }, conditions).lastClosure;
}

function ends({ min, max, reached }: Facts['rise']['timeToThreshold']) {
  return { min, max: reached === 'always' ? max : null };
}
