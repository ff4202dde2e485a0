import { closest, suggestionEnd } from '../closest.js';
import type { Fault } from '../fault.js';
import { isRecord } from '../is-record.js';
import type { LooseCircuit, LooseElement } from '../loose-circuit.js';
import { makeFault } from '../make-fault.js';
import { childPointer } from '../pointer.js';
import { readQuantity } from '../quantity.js';
import { quoted, quotedList } from '../quoted.js';

/** Faults of meaning that show in the elements alone: ids, nodes, kinds, and fields that contradict each other. */
export function elementChecks(circuit: LooseCircuit): Fault[] {
  const containers = containersOf(circuit);
  return [
    ...duplicateIds(circuit),
    ...missingAccumulator(circuit),
    ...circuit.elements.flatMap((element) => [
      ...sameNodes(element),
      ...loadFaults(element),
      ...deratingFaults(element),
      ...containerFaults(element, containers),
    ]),
  ];
}

function duplicateIds({ elements, byId }: LooseCircuit): Fault[] {
  return elements.flatMap((element) => {
    const first = element.id === undefined ? undefined : byId.get(element.id);
    if (first === undefined || first === element) return [];
    const detail = `${quoted(element.id)} is also the id of the element at ${first.pointer}.`;
    return [makeFault(childPointer(element.pointer, 'id'), 'duplicate-id', detail)];
  });
}

function missingAccumulator({ pointer, elements, kindsKnown }: LooseCircuit): Fault[] {
  // An empty list is the schema's fault; an element of unreadable kind may be the accumulator.
  if (!kindsKnown || elements.length === 0 || elements.some(({ kind }) => kind === 'accumulator')) return [];
  return [makeFault(childPointer(pointer, 'elements'), 'no-accumulator', 'The circuit has no accumulator.')];
}

function sameNodes({ nodes, pointer }: LooseElement): Fault[] {
  if (nodes === undefined || nodes[0] !== nodes[1]) return [];
  const detail = `Both ends of the element are on the node ${quoted(nodes[0])}; they must differ.`;
  return [makeFault(childPointer(pointer, 'nodes'), 'same-nodes', detail)];
}

/** A load has fewer fields; one with more is a body full of faults, and is not searched for misspelt ones. */
const FIELDS = 20;
const LOAD_VALUES = ['resistance', 'current', 'power'] as const;

function loadFaults({ kind, raw, pointer }: LooseElement): Fault[] {
  if (kind !== 'load') return [];
  const faults: Fault[] = [];
  const given = LOAD_VALUES.filter((key) => Object.hasOwn(raw, key));
  // A misspelt value has its own fault already.
  const isMisspelt = (): boolean =>
    Object.keys(raw)
      .slice(0, FIELDS)
      .some((key) => closest(key, LOAD_VALUES) !== undefined);
  if (given.length > 1 || (given.length === 0 && !isMisspelt())) {
    const stated = given.length === 0 ? 'none' : quotedList(given, 'and');
    const detail = `A load has exactly one of ${quotedList(LOAD_VALUES, 'and')}; this one has ${stated}.`;
    faults.push(makeFault(pointer, 'load-value-count', detail));
  }
  const starts = Object.hasOwn(raw, 'startsAbove') ? numberIn(raw['startsAbove'], 'voltageMagnitude') : 0;
  const stops = numberIn(raw['stopsBelow'], 'voltageMagnitude');
  if (starts !== undefined && stops !== undefined && stops > starts) {
    const detail = `The load stops below ${stops} V but starts above ${starts} V; it must not stop above where it starts.`;
    faults.push(makeFault(childPointer(pointer, 'stopsBelow'), 'stops-above-starts', detail));
  }
  return faults;
}

function deratingFaults({ kind, raw, pointer }: LooseElement): Fault[] {
  const ratings = raw['ratings'];
  if (kind !== 'resistor' || !isRecord(ratings)) return [];
  const full = numberIn(ratings['fullPowerUpTo'], 'temperature');
  const zero = numberIn(ratings['zeroPowerAt'], 'temperature');
  if (full === undefined || zero === undefined || full < zero) return [];
  const detail = `The resistor may take no power at ${zero} °C, which must be above the ${full} °C up to which it may take all.`;
  return [makeFault(childPointer(pointer, 'ratings', 'zeroPowerAt'), 'unordered-derating', detail)];
}

/** A plug that parts with a container nobody has would never part: a misspelt name, or `separates` left out. */
function containerFaults({ kind, raw, pointer }: LooseElement, containers: ReadonlySet<string> | undefined): Fault[] {
  if (kind !== 'connector' || containers === undefined || containers.size === 0) return [];
  const { container = 'main' } = raw;
  const { separates = container } = raw;
  if (typeof separates !== 'string' || containers.has(separates)) return [];
  const known = [...containers].sort();
  const detail = Object.hasOwn(raw, 'separates')
    ? `No element stands in a container ${quoted(separates)}${suggestionEnd(separates, known)}`
    : `The plug must say which container parts it: no element stands in a container ${quoted(separates)}.`;
  return [makeFault(childPointer(pointer, 'separates'), 'unknown-container', detail, quotedList(known))];
}

/** The containers in which elements stand; undefined where one cannot be read. */
function containersOf({ elements }: LooseCircuit): ReadonlySet<string> | undefined {
  const containers = new Set<string>();
  for (const { raw } of elements) {
    const { zone, container = 'main' } = raw;
    if ((zone !== 'container' && zone !== 'vehicle') || typeof container !== 'string') return undefined;
    if (zone === 'container') containers.add(container);
  }
  return containers;
}

function numberIn(value: unknown, name: 'voltageMagnitude' | 'temperature'): number | undefined {
  const reading = readQuantity(value, name);
  return 'value' in reading ? reading.value : undefined;
}
