import type { Facts } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';

/** A through the last relays at their closing: where an order of the team's own has them close, else at the threshold. */
export function closingCurrent({ sequence, lastClosure, rise }: Facts): Figure {
  return sequence.source === 'stated' && lastClosure !== undefined ? lastClosure.current : rise.currentAtSecondClosure;
}

/** Pointers of the accumulators' resistances that are not stated: each could only lower that current. */
export function sourceUnstated({ circuit }: Facts): readonly string[] {
  return circuit.elements.flatMap((element) =>
    element.kind === 'accumulator' && element.resistance === undefined ? [`${element.pointer}/resistance`] : [],
  );
}
