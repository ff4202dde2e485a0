import { isConductor } from './is-conductor.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/**
 * Capacitors on the car's side of the isolation relays, wherever they are built in: both nodes can be reached from the
 * link or from anything of the car with the given relays open. What hangs on a pole without a relay in between is
 * reached only along conductors, never through a resistor (a sense lead does not make a container's filter the car's),
 * and a container's capacitor with both nodes there stays the container's.
 *
 * @param cutting Isolation and pre-charge relays.
 */
export function vehicleCapacitors(wiring: Wiring, cutting: ReadonlySet<WirePart>): WirePart[] {
  const live = flood(
    wiring.nodes.filter((node) => node.terminal),
    ({ element }) => isConductor(element) && !(element.kind === 'contact' && element.rest === 'open'),
    cutting,
  );
  const starts = new Set<WireNode>(wiring.link ?? []);
  for (const part of wiring.parts) {
    if (part.element.zone !== 'vehicle' || cutting.has(part)) continue;
    starts.add(part.a);
    starts.add(part.b);
  }
  const reached = flood(
    starts,
    ({ element }, far) => element.kind !== 'accumulator' && (isConductor(element) || !live.has(far)),
    cutting,
  );
  return wiring.parts.filter(
    ({ element, a, b }) =>
      element.kind === 'capacitor' &&
      reached.has(a) &&
      reached.has(b) &&
      (element.zone === 'vehicle' || !live.has(a) || !live.has(b)),
  );
}

function flood(
  starts: Iterable<WireNode>,
  passes: (part: WirePart, far: WireNode) => boolean,
  cutting: ReadonlySet<WirePart>,
): Set<WireNode> {
  const reached = new Set(starts);
  // A set hands out what is added while it is being walked.
  for (const node of reached) {
    for (const { part, far } of node.links) if (!cutting.has(part) && passes(part, far)) reached.add(far);
  }
  return reached;
}
