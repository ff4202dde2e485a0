import { effectiveResistance } from '../../circuit/effective-resistance.js';
import type { Element, ResolvedCircuit } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { Exposure } from '../facts.js';
import type { Conducts } from './conducts.js';
import { isolationResistance } from './isolation-resistance.js';
import { isOutside, outsideOf } from './outside-of.js';
import { type Choose, resistanceOf } from './resistance-of.js';
import { type Reached, search } from './search.js';
import { type Terminal, terminals } from './terminals.js';
import { type WireNode, type WirePart, type Wiring, wiring } from './wiring.js';

/** Ω; a path of less limits nothing by itself: what limits the current then is inside the accumulator. */
const LIMITS_NOTHING = 1;

const smallest: Choose = (value) => value.min;

/**
 * Every node outside a container that hangs on one of its poles or taps with every contact at rest; a contact open at
 * rest conducts through its `openResistance`, if stated. Not through accumulators.
 *
 * An exposure is dangerous where the effective resistance from the pole, at the smallest values, does not isolate, or
 * where some conductor ahead of the isolating resistance, or the resistor with which the path comes to isolate, is
 * itself outside: what isolates must sit inside, or the lead in front of it is live. `missing` names a field where an
 * `openResistance` is not stated, the contact not known to be electromechanical, and the node would be dangerous if it
 * conducted fully; or where a resistance states no tolerance and the assumed one would make it dangerous. Where only an
 * unknown leakage leads to the node, resistance and current are those of a contact that conducts fully.
 *
 * A node that is dangerous at one pole is not listed again for a harmless way to another.
 */
export function exposures(circuit: ResolvedCircuit, conditions: Conditions): Exposure[] {
  const wires = wiring(circuit);
  const isolation = isolationResistance(wires, conditions);
  const leaky = wires.parts.some(isOfUnknownLeakage);
  const all = terminals(wires).flatMap((terminal) => {
    const outside = outsideOf(wires, terminal.pole.container);
    const at = (conducts: Conducts): Exposure[] => exposed(wires, terminal, outside, isolation, conducts);
    let found = at(atRest(wires, smallest));
    if (found.some(({ dangerous }) => !dangerous)) {
      const assumed = at(atRest(wires, smallest, conditions));
      found = found.map((exposure) => withDoubts(exposure, assumed, bareResistances(wires)));
    }
    if (leaky) {
      const resting = atRest(wires, smallest);
      const worst = at((part) => (isOfUnknownLeakage(part) ? 0 : resting(part)));
      const doubted = worst.flatMap((exposure): Exposure[] => {
        const known = found.find(({ node }) => node === exposure.node);
        const doubtful = known ?? { ...exposure, dangerous: false };
        const settled = withDoubts(doubtful, worst, unknownLeakages(wires));
        return known || settled.missing.length > 0 ? [settled] : [];
      });
      found = doubted;
    }
    return found;
  });
  const live = new Set(all.flatMap(({ dangerous, node }) => (dangerous ? [node] : [])));
  return all.filter(({ dangerous, node }) => dangerous || !live.has(node));
}

/** Every node outside that is reached from the pole, by resistance. */
function exposed(
  wires: Wiring,
  { pole, node: start }: Terminal,
  outside: ReadonlySet<WireNode>,
  isolation: number,
  conducts: Conducts,
): Exposure[] {
  const reached = search(wires, start, conducts, (node) => !node.terminal);
  // In a tree every node has one way only, and its resistance is the path's.
  const inside = new Set(reached.nodes);
  const joints = wires.parts.filter((part) => inside.has(part.a) && inside.has(part.b) && conducts(part) < Infinity);
  const isTree = joints.length === inside.size - 1;
  const used = new Map<Element, number>(joints.map((part) => [part.element, conducts(part)]));
  return reached.nodes.flatMap((node): Exposure[] => {
    if (!outside.has(node)) return [];
    const path = reached.pathTo(node);
    const resistance = isTree
      ? path.resistance
      : effectiveResistance(wires.circuit, start.name, node.name, (element) => used.get(element));
    const aheadOutside = leadsOutside(reached, node, pole.container, outside, isolation, conducts);
    return [
      {
        pole,
        node: node.name,
        touches: node.links.flatMap(({ part }) => (touchesOutside(part, pole.container) ? [part.element.id] : [])),
        path,
        resistance,
        current: shortCurrent(wires, pole.container, resistance),
        aheadOutside,
        dangerous: resistance < isolation || aheadOutside,
        missing: [],
      },
    ];
  });
}

/**
 * A into a short behind the path, by Ohm's law over the path and the smallest internal resistance that an accumulator of the
 * container states; Infinity where none states one and the path limits nothing.
 */
function shortCurrent({ parts, highestVoltage }: Wiring, container: string, path: number): number {
  const inside = parts.flatMap(({ element }) =>
    element.kind === 'accumulator' && element.container === container && element.resistance
      ? [element.resistance.min]
      : [],
  );
  if (inside.length === 0 && path < LIMITS_NOTHING) return Infinity;
  return highestVoltage / (path + Math.min(...(inside.length === 0 ? [0] : inside)));
}

/** True where the way is outside before it isolates, or comes to isolate in a part that is outside. */
function leadsOutside(
  reached: Reached,
  node: WireNode,
  container: string,
  outside: ReadonlySet<WireNode>,
  isolation: number,
  conducts: Conducts,
): boolean {
  let at = reached.start;
  let resistance = 0;
  for (const part of reached.partsTo(node)) {
    if (outside.has(at)) return true;
    resistance += conducts(part);
    if (resistance >= isolation) return isOutside(part, container);
    at = part.a === at ? part.b : part.a;
  }
  return outside.has(at) && resistance < isolation;
}

function touchesOutside(part: WirePart, container: string): boolean {
  return isOutside(part, container) || (part.element.kind === 'connector' && part.element.separates === container);
}

/** Ω at rest. With `conditions`, resistors and meters that state no tolerance are taken at the low end of the assumed one. */
function atRest(wires: Wiring, choose: Choose, conditions?: Conditions): Conducts {
  return ({ element }) => {
    if (element.kind === 'contact' && element.rest === 'open') {
      return element.openResistance ? choose(element.openResistance) : Infinity;
    }
    const ohms = resistanceOf(element, choose, wires.highestVoltage);
    if (!conditions || (element.kind !== 'resistor' && element.kind !== 'meter')) return ohms;
    return element.resistance.toleranceStated ? ohms : ohms * (1 - conditions.assumedTolerance[element.kind]);
  };
}

/** The exposure with the fields that could still make it dangerous, as the worse case says. */
function withDoubts(exposure: Exposure, worse: readonly Exposure[], pointers: ReadonlyMap<string, string>): Exposure {
  const worst = worse.find(({ node }) => node === exposure.node);
  if (exposure.dangerous || !worst?.dangerous) return exposure;
  const missing = worst.path.elements.flatMap((id) => pointers.get(id) ?? []);
  return { ...exposure, missing: [...new Set([...exposure.missing, ...missing])] };
}

function isOfUnknownLeakage({ element }: WirePart): boolean {
  return (
    element.kind === 'contact' &&
    element.rest === 'open' &&
    element.construction !== 'electromechanical' &&
    element.openResistance === undefined
  );
}

function unknownLeakages(wires: Wiring): Map<string, string> {
  return new Map(
    wires.parts.filter(isOfUnknownLeakage).map(({ element }) => {
      // Without its construction not even that it leaks is known.
      const unknown = element.kind === 'contact' && element.construction === undefined;
      return [element.id, `${element.pointer}/${unknown ? 'construction' : 'openResistance'}`] as const;
    }),
  );
}

function bareResistances(wires: Wiring): Map<string, string> {
  return new Map(
    wires.parts.flatMap(({ element }) =>
      (element.kind === 'resistor' || element.kind === 'meter') && !element.resistance.toleranceStated
        ? [[element.id, `${element.pointer}/resistance`] as const]
        : [],
    ),
  );
}
