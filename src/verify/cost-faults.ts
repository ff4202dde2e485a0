import { capacities, type Fault, type ResolvedCircuit } from '../circuit/index.js';
import type { Probe } from './probe.js';
import type { Instants } from './transients-schema.js';
import { capacitorPairs } from './work/capacitor-pairs.js';

/**
 * Whether a circuit has more states than one request may ask for in a verification, counted before any of it is done. The work
 * grows with their third power, and with their number again in the search for the worst case.
 */
export function searchFaults(circuit: ResolvedCircuit): Fault[] {
  return pairFaults(circuit, capacities.capacitorPairs);
}

/** The same for one run over time, which searches nothing. */
export function runFaults(circuit: ResolvedCircuit): Fault[] {
  return pairFaults(circuit, capacities.capacitorPairsOnce);
}

function pairFaults(circuit: ResolvedCircuit, most: number): Fault[] {
  const pairs = capacitorPairs(circuit);
  if (pairs <= most) return [];
  return [
    {
      pointer: `${circuit.pointer}/elements`,
      code: 'too-costly',
      detail: `Capacitors stand between ${pairs} pairs of nodes; the largest number allowed is ${most}.`,
      accepted: `at most ${most} pairs of nodes with capacitors between them`,
    },
  ];
}

/** Whether an answer would hold too many values. */
export function valueFaults(probes: readonly Probe[], instants: Instants): Fault[] {
  const count = 'times' in instants ? instants.times.length : instants.samples;
  const values = Math.max(1, probes.length) * count;
  if (values <= capacities.values) return [];
  return [
    {
      pointer: '#/probes',
      code: 'too-costly',
      detail: `${probes.length} probes at ${count} instants are ${values} values; the largest allowed is ${capacities.values}.`,
      accepted: `probes times instants at most ${capacities.values}`,
    },
  ];
}
