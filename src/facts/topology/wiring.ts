import { LastFew } from '../../circuit/last-few.js';
import type { ResolvedCircuit } from '../../circuit/model.js';
import { type Potentials, potentials } from './potentials.js';
import type { WireLink, WireNode, WirePart } from './wire-parts.js';

export type { WireLink, WireNode, WirePart };

/** The circuit as a graph of objects, so that the searches compare no text. */
export interface Wiring extends Omit<Potentials, 'level'> {
  readonly circuit: ResolvedCircuit;
  readonly nodes: readonly WireNode[];
  readonly parts: readonly WirePart[];
  readonly byId: ReadonlyMap<string, WirePart>;
  /** The intermediate circuit's two nodes; absent where the circuit has none. */
  readonly link?: readonly [WireNode, WireNode];
  nodeNamed(name: string): WireNode | undefined;
}

type Growing<T> = { -readonly [K in keyof T]: T[K] };

const built = new LastFew<ResolvedCircuit, Wiring>(4);

/** The circuit's wiring, built once for each circuit object. */
export function wiring(circuit: ResolvedCircuit): Wiring {
  return built.get(circuit, () => build(circuit));
}

function build(circuit: ResolvedCircuit): Wiring {
  const nodes: Growing<WireNode>[] = [];
  const links: WireLink[][] = [];
  const byName = new Map<string, Growing<WireNode>>();
  const nodeNamed = (name: string): Growing<WireNode> => {
    const known = byName.get(name);
    if (known) return known;
    const own: WireLink[] = [];
    const node = { index: nodes.length, name, links: own, level: -1, terminal: false };
    nodes.push(node);
    links.push(own);
    byName.set(name, node);
    return node;
  };
  const byId = new Map<string, WirePart>();
  const parts = circuit.elements.map((element, index): WirePart => {
    const a = nodeNamed(element.nodes[0]);
    const b = nodeNamed(element.nodes[1]);
    const part = { index, element, a, b };
    links[a.index]?.push({ part, far: b });
    links[b.index]?.push({ part, far: a });
    if (element.kind === 'accumulator') {
      a.terminal = true;
      b.terminal = true;
    }
    byId.set(element.id, part);
    return part;
  });
  const { level, ...rest } = potentials(nodes, parts);
  for (const node of nodes) node.level = level[node.index] ?? -1;
  const positive = circuit.link && byName.get(circuit.link[0]);
  const negative = circuit.link && byName.get(circuit.link[1]);
  return {
    circuit,
    nodes,
    parts,
    byId,
    ...rest,
    ...(positive && negative ? { link: [positive, negative] as const } : {}),
    nodeNamed: (name) => byName.get(name),
  };
}
