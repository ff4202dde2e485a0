import { elementChecks } from './checks/element-checks.js';
import { referenceChecks } from './checks/reference-checks.js';
import type { Fault } from './fault.js';
import { finishFaults } from './finish-faults.js';
import { looseCircuit } from './loose-circuit.js';
import type { ResolvedCircuit } from './model.js';
import { resolveCircuit } from './resolve/resolve-circuit.js';
import { type CircuitInput, CircuitSchema } from './schema/circuit.js';
import { validate } from './validate.js';

export type CircuitReading = { readonly circuit: ResolvedCircuit } | { readonly faults: readonly Fault[] };

/**
 * Reads a circuit from a request: quantities to SI, defaults filled in, elements in order of id.
 * @param pointer where the circuit stands in the request (`#/circuit`)
 * @returns the circuit, or every fault of form and of meaning at once, in order of place
 */
export function readCircuit(input: unknown, pointer: string): CircuitReading {
  const loose = looseCircuit(input, pointer);
  const faults = [...validate(CircuitSchema, input, pointer), ...elementChecks(loose), ...referenceChecks(loose)];
  if (faults.length > 0) return { faults: finishFaults(faults, pointer) };
  return { circuit: resolveCircuit(input as CircuitInput, pointer) };
}
