import { sequenceChecks } from './checks/sequence-checks.js';
import type { Directory } from './directory.js';
import type { Fault } from './fault.js';
import { finishFaults } from './finish-faults.js';
import type { Step } from './model.js';
import { resolveSequence } from './resolve/resolve-sequence.js';
import { type SequenceInput, SequenceSchema } from './schema/step.js';
import { validate } from './validate.js';

export type SequenceReading = { readonly sequence: readonly Step[] } | { readonly faults: readonly Fault[] };

/**
 * Reads a sequence of steps that stands beside a circuit in a request.
 * @param directory of the circuit beside it, whose elements the steps may name; undefined where there is none: then only
 * what can be judged without it is
 */
export function readSequence(input: unknown, pointer: string, directory: Directory | undefined): SequenceReading {
  const faults = [...validate(SequenceSchema, input, pointer), ...sequenceChecks(input, pointer, directory)];
  if (faults.length > 0) return { faults: finishFaults(faults, pointer) };
  return { sequence: resolveSequence(input as SequenceInput) };
}
