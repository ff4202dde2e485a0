import { LastFew } from '../../circuit/last-few.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

const known = new LastFew<Wiring, Map<string, ReadonlySet<WireNode>>>(4);

/**
 * Nodes outside a container, found once for each wiring: touched by an element of the car or of another container, or on the far side of a plug by
 * which the container parts. The far side is the one that the container's own elements do not join to its accumulators.
 */
export function outsideOf(wiring: Wiring, container: string): ReadonlySet<WireNode> {
  const own = known.get(wiring, () => new Map());
  const outside = own.get(container) ?? find(wiring, container);
  own.set(container, outside);
  return outside;
}

function find(wiring: Wiring, container: string): ReadonlySet<WireNode> {
  const outside = new Set<WireNode>();
  const plugs: WirePart[] = [];
  for (const part of wiring.parts) {
    const { element, a, b } = part;
    if (isOutside(part, container)) outside.add(a).add(b);
    if (element.kind === 'connector' && element.separates === container) plugs.push(part);
  }
  if (plugs.length === 0) return outside;
  const inner = new Set<WireNode>();
  for (const { element, a, b } of wiring.parts) {
    if (element.kind === 'accumulator' && element.container === container) inner.add(a).add(b);
  }
  // A set hands out what is added while it is being walked.
  for (const node of inner) {
    if (outside.has(node)) continue;
    for (const { part, far } of node.links) {
      if (part.element.container === container && part.element.zone === 'container' && !plugs.includes(part)) {
        inner.add(far);
      }
    }
  }
  const near = new Set([...inner].filter((node) => !outside.has(node)));
  for (const { a, b } of plugs) {
    if (near.has(a) && !near.has(b)) outside.add(b);
    if (near.has(b) && !near.has(a)) outside.add(a);
  }
  // A plug on a lead of its own: where neither end is known to be outside, both are taken to be.
  for (const { a, b } of plugs) {
    if (!near.has(a) && !near.has(b) && !outside.has(a) && !outside.has(b)) outside.add(a).add(b);
  }
  return outside;
}

/** True for an element of the car or of another container. */
export function isOutside({ element }: WirePart, container: string): boolean {
  return element.zone === 'vehicle' || element.container !== container;
}
