import type { Fuse, ResolvedCircuit } from '../circuit/model.js';
import type { Topology } from '../facts/facts.js';
import { joinedNodes } from './joined-nodes.js';

/**
 * True where a fuse carries traction current: the pre-charge relays open and every other contact closed, its two ends hang
 * together without it, by way of conductors, accumulators and the car's capacitors and machines. In a dead end they do not.
 */
export function carriesTraction(circuit: ResolvedCircuit, topology: Topology, { id, nodes: [a, b] }: Fuse): boolean {
  const without = new Set([...topology.prechargeRelays, id]);
  const jumps = [
    ...circuit.elements
      .filter(
        (element) =>
          ['accumulator', 'machine'].includes(element.kind) || topology.vehicleCapacitors.includes(element.id),
      )
      .map(({ nodes }) => nodes),
    ...(circuit.link === undefined ? [] : [circuit.link]),
  ];
  const seen = new Set<string>();
  const queue = [a];
  for (let from = queue.pop(); from !== undefined; from = queue.pop()) {
    if (seen.has(from)) continue;
    const joined = joinedNodes(circuit, from, without);
    for (const node of joined) seen.add(node);
    for (const [one, other] of jumps) {
      if (joined.has(one)) queue.push(other);
      if (joined.has(other)) queue.push(one);
    }
  }
  return seen.has(b);
}
