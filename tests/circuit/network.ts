import { readCircuit, type ResolvedCircuit } from '../../src/circuit/index.js';

/** A network of resistors as a circuit: [from, to, Ω, id]; ids `r0`, `r1`… where not given. Hangs an accumulator on two nodes of its own. */
export function network(resistors: ReadonlyArray<readonly [string, string, number, string?]>): ResolvedCircuit {
  const reading = readCircuit(
    {
      elements: [
        { id: 'pack', kind: 'accumulator', nodes: ['+', '-'], zone: 'container', voltage: 1 },
        ...resistors.map(([from, to, resistance, id], index) => ({
          id: id ?? `r${index}`,
          kind: 'resistor',
          nodes: [from, to],
          zone: 'vehicle',
          resistance,
        })),
      ],
    },
    '#',
  );
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.circuit;
}
