import type { Contact, Element, ResolvedCircuit, Step } from '../circuit/model.js';
import { reachable } from '../circuit/graph.js';

const NEVER_BRIDGED: ReadonlySet<Element['kind']> = new Set(['accumulator', 'capacitor', 'machine', 'disconnect']);

/**
 * The circuit with a contact bridged: its two nodes are one, and what lay beside it carries nothing and is left out.
 * Undefined where that would short the link, a source, a capacitor or a disconnect, which is no simplification.
 */
export function withContactBridged(circuit: ResolvedCircuit, contact: Contact): ResolvedCircuit | undefined {
  const [kept, merged] = contact.nodes;
  const rename = (node: string): string => (node === merged ? kept : node);
  const pair = ([a, b]: readonly [string, string]): [string, string] => [rename(a), rename(b)];
  const sensing = ({ senses }: { readonly senses?: readonly [string, string] }) =>
    senses === undefined ? {} : { senses: pair(senses) };
  const elements = circuit.elements.map((element) => ({ ...element, nodes: pair(element.nodes) }));
  const shorted = elements.filter(({ id, nodes: [a, b] }) => a === b && id !== contact.id);
  if (shorted.some(({ kind }) => NEVER_BRIDGED.has(kind))) return undefined;
  const link = circuit.link === undefined ? undefined : pair(circuit.link);
  const gone = new Set([contact.id, ...shorted.map(({ id }) => id)]);
  if (link !== undefined && link[0] === link[1]) return undefined;
  const { measuringPoints, chassis, indicator, containerIndicator, containerIndicators, control, ...rest } =
    withoutElements({ ...circuit, elements }, gone);
  const { precharge } = control;
  return {
    ...rest,
    ...(link === undefined ? {} : { link }),
    ...(measuringPoints === undefined
      ? {}
      : {
          measuringPoints: {
            positive: rename(measuringPoints.positive),
            negative: rename(measuringPoints.negative),
          },
        }),
    ...(chassis === undefined ? {} : { chassis: rename(chassis) }),
    ...(indicator === undefined
      ? {}
      : { indicator: { ...indicator, ...(indicator.senses && { senses: indicator.senses.map(pair) }) } }),
    ...(containerIndicator && { containerIndicator: sensing(containerIndicator) }),
    ...(containerIndicators && { containerIndicators: containerIndicators.map(sensing) }),
    control: {
      ...control,
      ...(precharge && {
        precharge: {
          ...precharge,
          ...(precharge.linkSense && { linkSense: pair(precharge.linkSense) }),
          ...(precharge.accumulatorSense && { accumulatorSense: pair(precharge.accumulatorSense) }),
        },
      }),
    },
  };
}

/**
 * The circuit with a contact taken out. Undefined where something would be cut off by that which hangs on it with every
 * contact closed: then the contact switches something, and taking it out is no simplification.
 */
export function withContactRemoved(circuit: ResolvedCircuit, contact: Contact): ResolvedCircuit | undefined {
  const [a, b] = contact.nodes;
  const others = circuit.elements.filter(({ id }) => id !== contact.id);
  const hangs = (node: string): boolean =>
    others.some(({ nodes }) => nodes.includes(node)) || named(circuit).includes(node);
  const joined = reachable({ ...circuit, elements: others }, a, (element) => (switches(element) ? 0 : undefined)).has(
    b,
  );
  if (!joined && hangs(a) && hangs(b)) return undefined;
  return withoutElements(circuit, new Set([contact.id]));
}

/** What leads on without a resistance of its own. */
function switches({ kind }: Element): boolean {
  return kind === 'contact' || kind === 'connector' || kind === 'disconnect' || kind === 'fuse';
}

/** Nodes that the description names beside its elements. */
function named({ link, measuringPoints, chassis }: ResolvedCircuit): readonly string[] {
  return [
    ...(link ?? []),
    ...(measuringPoints === undefined ? [] : [measuringPoints.positive, measuringPoints.negative]),
    ...(chassis === undefined ? [] : [chassis]),
  ];
}

function withoutElements(circuit: ResolvedCircuit, gone: ReadonlySet<string>): ResolvedCircuit {
  const elements = circuit.elements.filter(({ id }) => !gone.has(id));
  const { indicator, control } = circuit;
  const kept = (ids: readonly string[]): string[] => ids.filter((id) => !gone.has(id));
  const step = (each: Step): Step => ({ ...each, close: kept(each.close), open: kept(each.open) });
  return {
    ...circuit,
    elements,
    nodes: [...new Set(elements.flatMap(({ nodes }) => nodes))].sort(),
    ...(indicator?.watches === undefined ? {} : { indicator: { ...indicator, watches: kept(indicator.watches) } }),
    control: { ...control, ...(control.sequence && { sequence: control.sequence.map(step) }) },
  };
}
