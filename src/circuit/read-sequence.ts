import { sequenceChecks } from './checks/sequence-checks.js';
import { directoryOf } from './directory.js';
import type { Fault } from './fault.js';
import { finishFaults } from './finish-faults.js';
import type { ResolvedCircuit, Step } from './model.js';
import { resolveSequence } from './resolve/resolve-sequence.js';
import { type SequenceInput, SequenceSchema } from './schema/step.js';
import { validate } from './validate.js';

export type SequenceReading = { readonly sequence: readonly Step[] } | { readonly faults: readonly Fault[] };

/**
 * Reads a sequence of steps that stands beside a circuit in a request.
 * @param circuit whose elements the steps may name; undefined where it has faults of its own: then only what can be
 * judged without it is
 */
export function readSequence(input: unknown, pointer: string, circuit: ResolvedCircuit | undefined): SequenceReading {
  const directory = circuit === undefined ? undefined : directoryOf(circuit);
  const faults = [...validate(SequenceSchema, input, pointer), ...sequenceChecks(input, pointer, directory)];
  if (faults.length > 0) return { faults: finishFaults(faults, pointer) };
  return { sequence: resolveSequence(input as SequenceInput) };
}
