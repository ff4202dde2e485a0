import type { Step } from '../model.js';
import type { SequenceInput } from '../schema/step.js';
import { stated } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

/** A sequence in SI; the order of ids within one list of a step means nothing, so they stand sorted. */
export function resolveSequence(input: SequenceInput): readonly Step[] {
  return input.map((step) =>
    withoutUndefined({
      at: stated(step.at, 'time'),
      after: stated(step.after, 'time'),
      when:
        step.when === undefined
          ? undefined
          : { linkRatio: stated(step.when.linkRatio, 'fraction'), falling: step.when.falling ?? false },
      close: [...(step.close ?? [])].sort(),
      open: [...(step.open ?? [])].sort(),
      release: step.release ?? false,
    }),
  );
}
