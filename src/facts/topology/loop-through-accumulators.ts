import type { Conducts } from './conducts.js';
import { type Distance, further, NOWHERE, takeNearest } from './distance.js';
import { search } from './search.js';
import type { WireNode, WirePart, Wiring } from './wiring.js';

/** A way from one node of the link to the other through at least one accumulator. */
export interface Loop {
  /** In order from `link[0]` to `link[1]`; accumulators included. */
  readonly parts: readonly WirePart[];
  /** One more than the parts. */
  readonly nodes: readonly WireNode[];
  /** Ω, without the accumulators' own. */
  readonly resistance: number;
}

interface State {
  readonly node: WireNode;
  readonly level: number;
  readonly distance: Distance;
  readonly previous: State | undefined;
  readonly part: WirePart | undefined;
}

/**
 * The way of least resistance by which accumulators drive a current through the link. Only accumulators lead from one
 * level of potential to another: a node without a level of its own (the middle of a divider, say) keeps the level from
 * which it was entered, so that a resistor across the link or across an accumulator is no way. Undefined where there is
 * none, or only one of `below` Ω or more.
 */
export function loopThroughAccumulators(wiring: Wiring, conducts: Conducts, below: number): Loop | undefined {
  const ends = linkLevels(wiring, conducts);
  if (!wiring.link || !ends) return undefined;
  const [start, goal] = wiring.link;
  const done = new Set<number>();
  const width = wiring.nodes.length;
  const frontier: State[] = [{ node: start, level: ends[0], distance: NOWHERE, previous: undefined, part: undefined }];
  for (;;) {
    const state = takeNearest(frontier);
    if (!state || state.distance.resistance >= below) return undefined;
    const key = state.level * width + state.node.index;
    if (done.has(key)) continue;
    done.add(key);
    if (state.node === goal && state.level === ends[1]) return unrolled(state);
    for (const { part, far } of state.node.links) {
      const source = part.element.kind === 'accumulator';
      if (!source && far.level >= 0 && far.level !== state.level) continue;
      const ohms = source ? 0 : conducts(part);
      if (state.distance.resistance + ohms >= below) continue;
      const level = source ? far.level : state.level;
      if (done.has(level * width + far.index)) continue;
      frontier.push({ node: far, level, distance: further(state.distance, part, ohms), previous: state, part });
    }
  }
}

/** Levels of the link's nodes; one that hangs on resistors alone takes the level of the nearest accumulator's end. */
function linkLevels(wiring: Wiring, conducts: Conducts): [number, number] | undefined {
  if (!wiring.link) return undefined;
  const [first, second] = wiring.link;
  const a = first.level >= 0 ? first.level : nearestLevel(wiring, first, second.level, conducts);
  const b = second.level >= 0 ? second.level : nearestLevel(wiring, second, a ?? -1, conducts);
  return a === undefined || b === undefined || a === b ? undefined : [a, b];
}

function nearestLevel(wiring: Wiring, start: WireNode, barred: number, conducts: Conducts): number | undefined {
  const reached = search(
    wiring,
    start,
    conducts,
    (node) => node.level < 0 || node.level !== barred,
    (node) => node.level < 0,
  );
  return reached.nodes.find((node) => node.level >= 0)?.level;
}

function unrolled(end: State): Loop {
  const parts: WirePart[] = [];
  const nodes: WireNode[] = [];
  for (let state: State | undefined = end; state; state = state.previous) {
    nodes.push(state.node);
    if (state.part) parts.push(state.part);
  }
  return { parts: parts.reverse(), nodes: nodes.reverse(), resistance: end.distance.resistance };
}
