import type { Element, Load } from '../circuit/model.js';
import { reachable } from '../circuit/graph.js';
import type { Facts } from '../facts/facts.js';
import { isConductor } from '../facts/topology/is-conductor.js';
import { formatQuantity } from './format-quantity.js';
import type { Outcome } from './rule.js';

/** Loads named one by one in a sentence, at most. */
const NAMED = 5;

/** What draws from the link while it rises, for sentences. */
export interface RiseLoads {
  /** In the order of the elements. */
  readonly ids: readonly string[];
  /** `fan and pump`, or `the load` where there is none: what else draws is no load. */
  readonly names: string;
  /** `, with fan (above 300 V) and pump drawing from it`, to follow what the link does; empty where there is none. */
  readonly drawing: string;
  /** False where a load may keep the link swinging, or pull it down again: one that starts or stops, or draws a constant power. */
  readonly settles: boolean;
}

/**
 * The loads that hang on the link in the rise by conductors alone, through contacts that the order has closed by then. One that only
 * starts above the accumulator's highest voltage never draws.
 */
export function riseLoads({ circuit, topology, sequence, openCircuitVoltage }: Facts): RiseLoads {
  const { link } = circuit;
  const cut = new Set([...topology.isolationRelays, ...topology.prechargeRelays]);
  const { steps } = sequence;
  const isShut = (element: Element): boolean =>
    element.kind !== 'contact' ||
    (element.rest === 'closed'
      ? steps.every(({ open }) => !open.includes(element.id))
      : steps.some(({ close }) => close.includes(element.id)));
  const conducts = (element: Element) =>
    isConductor(element) && !cut.has(element.id) && isShut(element) ? 0 : undefined;
  const sides = link?.map((node) => new Set(reachable(circuit, node, conducts).keys())) ?? [];
  const highest = openCircuitVoltage.max ?? Infinity;
  const loads = circuit.elements.filter(
    (element): element is Load =>
      element.kind === 'load' &&
      element.activeIn.includes('precharge') &&
      element.startsAbove < highest &&
      sides.length > 0 &&
      sides.every((side) => element.nodes.some((node) => side.has(node))),
  );
  const ids = loads.map(({ id }) => id);
  const atVoltages = loads.map(({ id, startsAbove }) =>
    startsAbove > 0 ? `${id} (above ${formatQuantity(startsAbove, 'V')})` : id,
  );
  return {
    ids,
    names: ids.length === 0 ? 'the load' : list(ids),
    drawing: ids.length === 0 ? '' : `, with ${list(atVoltages)} drawing from it`,
    settles: loads.every(({ power, startsAbove, stopsBelow }) => power === undefined && startsAbove + stopsBelow === 0),
  };
}

/** What the link does before a ratio in a sentence: it settles only where nothing keeps it from that. */
export function settlesText({ settles }: RiseLoads, status: Outcome['status']): string {
  if (settles) return 'settles at';
  return status === 'violated' ? 'is left with at most' : 'gets to';
}

/** The first of some names, of which there is one at least: `a, b and c`, or `a, b and 3 more`. */
function list(names: readonly string[]): string {
  const shown = names.length > NAMED ? [...names.slice(0, NAMED), `${names.length - NAMED} more`] : names;
  const [last = '', ...others] = shown.toReversed();
  return others.length === 0 ? last : `${others.toReversed().join(', ')} and ${last}`;
}
