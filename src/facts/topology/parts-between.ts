import type { Conducts, Enters } from './conducts.js';
import { search } from './search.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/**
 * Elements that lie on some path from `a` to `b` which visits no node twice: those that carry current when a source is
 * put across the two. They are the biconnected component of an imagined element from `a` to `b`, found in one depth-first
 * walk (a textbook method, from memory). Elements that only lie on paths of `below` Ω or more are left out, by the least
 * sum of two legs, which may have nodes in common. In order of the elements.
 */
export function partsBetween(
  wiring: Wiring,
  a: WireNode,
  b: WireNode,
  conducts: Conducts,
  below: number,
  enters?: Enters,
): WirePart[] {
  if (a === b) return [];
  const order = new Int32Array(wiring.nodes.length);
  order[a.index] = 1;
  let clock = 1;
  const stack: WirePart[] = [];

  /** The earliest node that can be reached from below `node` without the way by which it was entered. */
  const visit = (node: WireNode, entry: WirePart | undefined): number => {
    clock += 1;
    const own = clock;
    order[node.index] = own;
    let earliest = own;
    for (const { part, far } of node.links) {
      if (part === entry || conducts(part) === Infinity) continue;
      const seen = order[far.index] ?? 0;
      if (seen === 0) {
        if (enters && !enters(far)) continue;
        const mark = stack.length;
        stack.push(part);
        const reached = visit(far, part);
        if (reached >= own) stack.length = mark;
        earliest = Math.min(earliest, reached);
      } else if (seen < own) {
        stack.push(part);
        earliest = Math.min(earliest, seen);
      }
    }
    return earliest;
  };
  visit(b, undefined);

  stack.sort((left, right) => left.index - right.index);
  const total = stack.reduce((sum, part) => sum + conducts(part), 0);
  if (total < below) return stack;
  const within = new Set(stack);
  return stack.filter((part) => leastThrough(wiring, part, a, b, within, conducts) < below);
}

/** Ω of the least way from `a` to `b` through a part; each leg keeps off the part itself and off the other end. */
function leastThrough(
  wiring: Wiring,
  part: WirePart,
  a: WireNode,
  b: WireNode,
  within: ReadonlySet<WirePart>,
  conducts: Conducts,
): number {
  const others: Conducts = (other) => (other !== part && within.has(other) ? conducts(other) : Infinity);
  const fromA = search(wiring, a, others, (node) => node !== b);
  const fromB = search(wiring, b, others, (node) => node !== a);
  return (
    conducts(part) +
    Math.min(
      fromA.resistanceTo(part.a) + fromB.resistanceTo(part.b),
      fromA.resistanceTo(part.b) + fromB.resistanceTo(part.a),
    )
  );
}
