import { capacities } from './capacities.js';
import { isRecord } from './is-record.js';
import type { ElementKind } from './model.js';
import { childPointer } from './pointer.js';
import { elementSchemas } from './schema/element.js';

/** What can be read of an element that may be faulty elsewhere. */
export interface LooseElement {
  readonly pointer: string;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly id?: string;
  readonly kind?: ElementKind;
  readonly nodes?: readonly [string, string];
}

/**
 * A circuit as far as it can be read, so that the checks of meaning run beside those of form and all faults come in one
 * answer. The `known` flags say whether a list is complete: where an id could not be read, a reference to an id
 * that is not in the list may well be to that element, and is no second fault.
 */
export interface LooseCircuit {
  readonly pointer: string;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly elements: readonly LooseElement[];
  readonly byId: ReadonlyMap<string, LooseElement>;
  readonly nodes: ReadonlySet<string>;
  readonly idsKnown: boolean;
  readonly nodesKnown: boolean;
  readonly kindsKnown: boolean;
}

/** Reads what can be read of `input`; never fails. */
export function looseCircuit(input: unknown, pointer: string): LooseCircuit {
  const raw = isRecord(input) ? input : {};
  const list: readonly unknown[] | undefined = Array.isArray(raw['elements']) ? raw['elements'] : undefined;
  const place = childPointer(pointer, 'elements');
  // A list that is too long is refused for its length; its tail is not looked at.
  const elements = (list ?? [])
    .slice(0, capacities.elements)
    .map((element, index) => looseElement(element, childPointer(place, index)));
  const byId = new Map<string, LooseElement>();
  const nodes = new Set<string>();
  for (const element of elements) {
    if (element.id !== undefined && !byId.has(element.id)) byId.set(element.id, element);
    for (const node of element.nodes ?? []) nodes.add(node);
  }
  const complete = (key: 'id' | 'kind' | 'nodes'): boolean =>
    list !== undefined && elements.length === list.length && elements.every((element) => element[key] !== undefined);
  return {
    pointer,
    raw,
    elements,
    byId,
    nodes,
    idsKnown: complete('id'),
    nodesKnown: complete('nodes'),
    kindsKnown: complete('kind'),
  };
}

function looseElement(input: unknown, pointer: string): LooseElement {
  if (!isRecord(input)) return { pointer, raw: {} };
  const { id, kind } = input;
  const nodes = textPair(input['nodes']);
  return {
    pointer,
    raw: input,
    ...(typeof id === 'string' ? { id } : {}),
    ...(typeof kind === 'string' && isKind(kind) ? { kind } : {}),
    ...(nodes === undefined ? {} : { nodes }),
  };
}

function isKind(kind: string): kind is ElementKind {
  return Object.hasOwn(elementSchemas, kind);
}

/** Two texts, or undefined where the value is anything else. */
export function textPair(value: unknown): readonly [string, string] | undefined {
  if (!Array.isArray(value) || value.length !== 2) return undefined;
  const [a, b] = value as [unknown, unknown];
  return typeof a === 'string' && typeof b === 'string' ? [a, b] : undefined;
}
