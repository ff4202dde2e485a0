import { type Static, Type } from '@sinclair/typebox';
import type { ResolvedCircuit } from '../circuit/model.js';
import { plainCircuit } from '../circuit/plain-circuit.js';
import { CircuitSchema } from '../circuit/schema/circuit.js';
import { ref } from '../circuit/schema/ref.js';
import { provenance } from './provenance.js';
import { ProvenanceSchema } from './report.js';

export const CheckAnswerSchema = Type.Object(
  {
    circuit: ref(CircuitSchema),
    nodes: Type.Array(Type.String(), { description: 'Every node that an element touches.' }),
    linkStated: Type.Boolean({ description: 'False: the link is the default one, or there is none.' }),
    provenance: ref(ProvenanceSchema),
  },
  { $id: 'CheckAnswer', additionalProperties: true, description: 'The circuit as it was understood, in plain SI.' },
);
export type CheckAnswer = Static<typeof CheckAnswerSchema>;

/** A circuit as it was understood. Posting `circuit` back gives the same. */
export function checkCircuit(circuit: ResolvedCircuit): CheckAnswer {
  return {
    circuit: plainCircuit(circuit),
    nodes: [...circuit.nodes],
    linkStated: circuit.linkStated,
    provenance: provenance({ circuit }),
  };
}
