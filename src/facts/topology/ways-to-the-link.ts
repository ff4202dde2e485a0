import type { Conducts } from './conducts.js';
import { partsBetween } from './parts-between.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/**
 * Elements by which a pole is joined to the link's node of the same polarity, or to another container's pole of the same
 * potential, through less than `below` Ω. Paths visit no node of another known potential, so they cross neither the
 * link nor an accumulator.
 */
export function waysToTheLink(wiring: Wiring, conducts: Conducts, below: number): WirePart[] {
  const ends = wiring.nodes.filter((node) => node.terminal);
  const found = new Set<WirePart>();
  const add = (from: WireNode, to: WireNode): void => {
    const enters = (node: WireNode): boolean => node.level < 0 || node.level === from.level;
    for (const part of partsBetween(wiring, from, to, conducts, below, enters)) found.add(part);
  };
  for (const end of ends) {
    for (const [place, node] of (wiring.link ?? []).entries()) {
      // A link node that hangs on resistors alone has no level: any pole will do but the other node's.
      const opposite = wiring.link?.[1 - place]?.level ?? -1;
      if (node.level === end.level || (node.level < 0 && end.level !== opposite)) add(end, node);
    }
    for (const other of ends) if (other.index > end.index && other.level === end.level) add(end, other);
  }
  return [...found];
}
