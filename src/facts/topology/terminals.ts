import type { Pole } from '../facts.js';
import type { WireNode, Wiring } from './wiring.js';

/** A node at which an accumulator of a container ends. */
export interface Terminal {
  readonly pole: Pole;
  readonly node: WireNode;
  /** False for a tap between the accumulators of one container. */
  readonly outermost: boolean;
}

/**
 * The ends of every container's accumulators: the outermost ones are the container's poles (two, or more where strings
 * in parallel join outside), the others its taps, which are just as live. A tap is called positive where it is some
 * accumulator's positive end. In order of container, positive first, then by accumulator.
 */
export function terminals(wiring: Wiring): Terminal[] {
  const ends = new Map<string, Map<WireNode, boolean>>();
  for (const { element, a, b } of wiring.parts) {
    if (element.kind !== 'accumulator') continue;
    const own = ends.get(element.container) ?? new Map<WireNode, boolean>();
    own.set(a, true);
    own.set(b, own.get(b) ?? false);
    ends.set(element.container, own);
  }
  const potential = (node: WireNode): number => wiring.potential[node.index] ?? 0;
  const found: Terminal[] = [];
  for (const [container, own] of [...ends].sort(([left], [right]) => (left < right ? -1 : 1))) {
    const rows = [...own].map(([node, isPositive]): Terminal => {
      const together = [...own.keys()].filter((other) => wiring.island[other.index] === wiring.island[node.index]);
      const below = Math.max(...together.map(potential)) - potential(node);
      const above = potential(node) - Math.min(...together.map(potential));
      const top = below < wiring.resolution;
      const bottom = above < wiring.resolution;
      const positive = top || (!bottom && isPositive);
      return {
        pole: { container, polarity: positive ? 'positive' : 'negative', node: node.name },
        node,
        outermost: top || bottom,
      };
    });
    found.push(...rows.filter(({ pole }) => pole.polarity === 'positive'));
    found.push(...rows.filter(({ pole }) => pole.polarity === 'negative'));
  }
  return found;
}
