import type { Accumulator } from '../../circuit/model.js';
import { isConductor } from './is-conductor.js';
import type { WireNode, WirePart } from './wire-parts.js';

/** What a node's place between the accumulators is, before anything is switched. */
export interface Potentials {
  /** V between the outermost poles with every accumulator at its highest voltage; 0 without accumulators. */
  readonly highestVoltage: number;
  /** Outermost poles with every contact closed; absent without accumulators. */
  readonly outermost?: { readonly positive: WireNode; readonly negative: WireNode };
  /** V relative to the node's own island, at nominal voltages; only differences inside one island mean anything. */
  readonly potential: Float64Array;
  /** Nodes of one island are joined by accumulators and whatever can conduct without a resistor. */
  readonly island: Int32Array;
  /** V; smaller differences of potential are the same level. */
  readonly resolution: number;
  /** By node index; −1 where no accumulator sets the node's potential. */
  readonly level: Int32Array;
}

/**
 * Potentials of all nodes with every contact, fuse, plug, disconnect and shunt closed: a union-find over the nodes in
 * which each link carries the voltage across it. A conductor that would join two different potentials (a contact that
 * shorts the link, say) is left out.
 *
 * Two accumulators of slightly different nominal voltage in parallel count as the same level: levels are told apart by
 * a quarter of the smallest accumulator's voltage.
 */
export function potentials(nodes: readonly WireNode[], parts: readonly WirePart[]): Potentials {
  const count = nodes.length;
  const parent = Int32Array.from({ length: count }, (_, index) => index);
  // V of a node above its parent, nominal and with every accumulator at its highest.
  const above = new Float64Array(count);
  const aboveHighest = new Float64Array(count);

  const settle = (node: number): number => {
    const up = parent[node] ?? node;
    if (up === node) return node;
    const root = settle(up);
    if (root !== up) {
      above[node] = (above[node] ?? 0) + (above[up] ?? 0);
      aboveHighest[node] = (aboveHighest[node] ?? 0) + (aboveHighest[up] ?? 0);
      parent[node] = root;
    }
    return root;
  };
  const join = (part: WirePart, nominal: number, highest: number): void => {
    const a = part.a.index;
    const b = part.b.index;
    const rootA = settle(a);
    const rootB = settle(b);
    if (rootA === rootB) return;
    parent[rootA] = rootB;
    above[rootA] = nominal + (above[b] ?? 0) - (above[a] ?? 0);
    aboveHighest[rootA] = highest + (aboveHighest[b] ?? 0) - (aboveHighest[a] ?? 0);
  };

  const sources: { part: WirePart; accumulator: Accumulator }[] = [];
  for (const part of parts) {
    if (part.element.kind === 'accumulator') sources.push({ part, accumulator: part.element });
  }
  for (const { part, accumulator } of sources) join(part, accumulator.voltage.nominal, accumulator.voltage.max);
  for (const part of parts) if (isConductor(part.element)) join(part, 0, 0);
  for (const node of nodes) settle(node.index);

  const resolution =
    sources.reduce((least, { accumulator }) => Math.min(least, accumulator.voltage.nominal), Infinity) / 4;
  return {
    potential: above,
    island: parent,
    resolution,
    level: levels(nodes, sources, parent, above, resolution),
    ...extremes(sources, parent, above, aboveHighest),
  };
}

function levels(
  nodes: readonly WireNode[],
  sources: readonly { readonly part: WirePart }[],
  island: Int32Array,
  potential: Float64Array,
  resolution: number,
): Int32Array {
  const fed = new Set(sources.map(({ part }) => island[part.a.index]));
  const found: { island: number | undefined; potential: number }[] = [];
  return Int32Array.from(nodes, ({ index }) => {
    const home = island[index];
    if (!fed.has(home)) return -1;
    const own = potential[index] ?? 0;
    const known = found.findIndex((level) => level.island === home && Math.abs(level.potential - own) < resolution);
    return known >= 0 ? known : found.push({ island: home, potential: own }) - 1;
  });
}

/** The island with the widest span decides; of equal ones the accumulator that comes first by id. */
function extremes(
  sources: readonly { readonly part: WirePart }[],
  island: Int32Array,
  potential: Float64Array,
  highest: Float64Array,
): Pick<Potentials, 'highestVoltage' | 'outermost'> {
  let highestVoltage = 0;
  let widest = 0;
  let outermost: Potentials['outermost'];
  for (const home of new Set(sources.map(({ part }) => island[part.a.index]))) {
    const ends = sources.flatMap(({ part }) => (island[part.a.index] === home ? [part.a, part.b] : []));
    const at = (node: WireNode): number => potential[node.index] ?? 0;
    const positive = ends.reduce((best, node) => (at(node) > at(best) ? node : best));
    const negative = ends.reduce((best, node) => (at(node) < at(best) ? node : best));
    const tops = ends.map((node) => highest[node.index] ?? 0);
    highestVoltage = Math.max(highestVoltage, Math.max(...tops) - Math.min(...tops));
    if (at(positive) - at(negative) > widest) {
      widest = at(positive) - at(negative);
      outermost = { positive, negative };
    }
  }
  return { highestVoltage, ...(outermost ? { outermost } : {}) };
}
