import type { Contact, ResolvedCircuit } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { ConductingPath, PoleExit, Topology } from '../facts.js';
import type { Conducts } from './conducts.js';
import { isolationResistance } from './isolation-resistance.js';
import { isOutside, outsideOf } from './outside-of.js';
import { resistanceOf } from './resistance-of.js';
import { type Reached, search } from './search.js';
import { type Terminal, terminals } from './terminals.js';
import { type WireNode, type WirePart, type Wiring, wiring } from './wiring.js';

type Flaw = PoleExit['faults'][number];

/** How well a contact cuts an exit of one container. */
interface Judged {
  readonly flaws: readonly Flaw[];
  /** Pointers of fields not stated; a contact with neither flaws nor missing fields cuts. */
  readonly missing: readonly string[];
}

/** The search's ground: which nodes are outside, and what conducts with every contact closed. */
interface Ground {
  readonly wires: Wiring;
  readonly container: string;
  readonly outside: ReadonlySet<WireNode>;
  readonly below: number;
  readonly judge: (part: WirePart) => Judged;
}

/**
 * Every way out of a container from each of its poles and taps, up to the first node outside, as if every contact were
 * closed; never through an accumulator or a resistance that isolates. One exit for each node outside that is reached
 * without any contact, and one for each first contact on a way, by the least resistance beyond it.
 *
 * A contact cuts its way where it stands in the same container, is open at rest, is electromechanical, and is an
 * isolation relay or, in the pre-charge branch, the pre-charge relay. Behind a first contact that does not cut, the way
 * is followed to see whether another does.
 */
export function exits(circuit: ResolvedCircuit, parts: Topology, conditions: Conditions): PoleExit[] {
  const wires = wiring(circuit);
  const below = isolationResistance(wires, conditions);
  return terminals(wires).flatMap((terminal) => {
    const { container } = terminal.pole;
    const judge = (part: WirePart): Judged => judged(part, container, parts);
    return exitsOf(terminal, { wires, container, outside: outsideOf(wires, container), below, judge });
  });
}

function exitsOf(terminal: Terminal, ground: Ground): PoleExit[] {
  const { outside } = ground;
  const near = explore(ground, terminal.node, (part) => part.element.kind !== 'contact');
  const found: PoleExit[] = [];
  for (const node of near.nodes) {
    if (!outside.has(node)) continue;
    const relayOutside = node.links.some(
      ({ part }) =>
        isOutside(part, ground.container) && part.element.kind === 'contact' && part.element.rest === 'open',
    );
    found.push({
      pole: terminal.pole,
      path: near.pathTo(node),
      faults: [relayOutside ? 'outside-container' : 'none'],
      missing: [],
    });
  }
  const reached = new Set(near.nodes);
  const ways: PoleExit[] = [];
  for (const node of near.nodes) {
    if (outside.has(node)) continue;
    for (const { part, far } of node.links) {
      if (part.element.kind !== 'contact' || reached.has(far)) continue;
      if (far.terminal && !outside.has(far)) continue;
      const exit = exitThrough(terminal, ground, near.pathTo(node), part, far, reached);
      if (exit) ways.push(exit);
    }
  }
  ways.sort((left, right) => (left.path.elements.join() < right.path.elements.join() ? -1 : 1));
  return [...found, ...ways];
}

/** The worst way beyond a first contact: one that nothing cuts, else one that fields not stated would settle, else any. */
function exitThrough(
  terminal: Terminal,
  ground: Ground,
  before: ConductingPath,
  first: WirePart,
  far: WireNode,
  reached: ReadonlySet<WireNode>,
): PoleExit | undefined {
  const { judge, below, outside } = ground;
  const own = judge(first);
  const spent = before.resistance + ohms(ground, first);
  if (spent >= below) return undefined;
  const onward = (passes: (part: WirePart) => boolean): { path: ConductingPath; parts: WirePart[] } | undefined => {
    const rest = explore({ ...ground, below: below - spent }, far, (part) => part !== first && passes(part), reached);
    const end = rest.nodes.find((node) => outside.has(node));
    if (!end) return undefined;
    const path = rest.pathTo(end);
    return {
      path: {
        elements: [...before.elements, first.element.id, ...path.elements],
        nodes: [...before.nodes, ...path.nodes],
        resistance: spent + path.resistance,
      },
      parts: [first, ...rest.partsTo(end)],
    };
  };
  const cuts = (part: WirePart): boolean => isClear(judge(part));
  const mayCut = (part: WirePart): boolean => judge(part).flaws.length === 0;
  const contactsOf = (parts: readonly WirePart[]): WirePart[] =>
    parts.filter(({ element }) => element.kind === 'contact');

  if (!mayCut(first)) {
    const uncut = onward((part) => !mayCut(part));
    if (uncut) {
      const flaws = contactsOf(uncut.parts).flatMap((part) => judge(part).flaws);
      return { pole: terminal.pole, path: uncut.path, faults: [...new Set(flaws)], missing: [] };
    }
  }
  if (!isClear(own)) {
    const unsettled = onward((part) => !cuts(part));
    if (unsettled) {
      const candidates = contactsOf(unsettled.parts).filter(mayCut);
      const cutBy = candidates[0]?.element.id;
      return {
        pole: terminal.pole,
        path: unsettled.path,
        ...(cutBy === undefined ? {} : { cutBy }),
        faults: [],
        missing: candidates.flatMap((part) => judge(part).missing),
      };
    }
  }
  const way = onward(() => true);
  const cutter = way && contactsOf(way.parts).find(cuts);
  return way && cutter && { pole: terminal.pole, path: way.path, cutBy: cutter.element.id, faults: [], missing: [] };
}

function explore(
  { wires, outside, below, ...ground }: Ground,
  start: WireNode,
  passes: (part: WirePart) => boolean,
  barred?: ReadonlySet<WireNode>,
): Reached {
  const conducts: Conducts = (part) => {
    const resistance = passes(part) ? ohms({ wires, outside, below, ...ground }, part) : Infinity;
    return resistance < below ? resistance : Infinity;
  };
  const reached = search(
    wires,
    start,
    conducts,
    (node) => !barred?.has(node) && (!node.terminal || outside.has(node)),
    (node) => !outside.has(node),
  );
  const stays = outside.has(start) ? [start] : reached.nodes.filter((node) => reached.resistanceTo(node) < below);
  return { ...reached, nodes: stays };
}

function ohms({ wires }: Ground, { element }: WirePart): number {
  return resistanceOf(element, (value) => value.min, wires.highestVoltage);
}

function isClear({ flaws, missing }: Judged): boolean {
  return flaws.length === 0 && missing.length === 0;
}

function judged(part: WirePart, container: string, parts: Topology): Judged {
  const { element } = part;
  if (element.kind !== 'contact') return { flaws: ['none'], missing: [] };
  const flaws: Flaw[] = [];
  const missing: string[] = [];
  if (isOutside(part, container)) flaws.push('outside-container');
  if (element.rest === 'closed') flaws.push('rest-closed');
  if (element.construction === 'solid-state') flaws.push('solid-state');
  if (element.construction === undefined) missing.push(`${element.pointer}/construction`);
  const role = roleFits(element, parts);
  if (role === 'wrong') flaws.push('wrong-role');
  if (role === 'unknown') missing.push(`${element.pointer}/role`);
  return { flaws, missing: flaws.length > 0 ? [] : missing };
}

function roleFits({ id, role }: Contact, parts: Topology): 'fits' | 'wrong' | 'unknown' {
  if (parts.isolationRelays.includes(id) || parts.prechargeRelays.includes(id)) return 'fits';
  return role === undefined ? 'unknown' : 'wrong';
}
