import { CircuitFault } from '../circuit/fault.js';
import type { Probe } from './probe.js';
import type { Request } from './read-request.js';
import type { TransientsInput } from './transients-schema.js';

/**
 * A read request as the computation wants it; where no probe is stated, the voltage of the intermediate circuit is one.
 * @throws CircuitFault where no probe is stated and the circuit has no intermediate circuit
 */
export function transientsInput({ circuit, sequence, event, probes, instants }: Request): TransientsInput {
  return {
    circuit,
    ...(sequence === undefined ? {} : { sequence }),
    ...(event === undefined ? {} : { event }),
    probes: probes.length > 0 ? probes : [linkProbe(circuit.link)],
    instants,
  };
}

function linkProbe(link: readonly [string, string] | undefined): Probe {
  if (link !== undefined) return { id: 'link', quantity: 'voltage', nodes: link };
  const detail =
    'Probes are missing, and the circuit has no intermediate circuit that could be watched in their place.';
  throw new CircuitFault([{ pointer: '#/probes', code: 'missing-field', detail }]);
}
