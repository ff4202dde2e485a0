import { textPair } from '../loose-circuit.js';
import type { Zone } from '../model.js';
import type { ElementInput } from '../schema/element.js';
import { withoutUndefined } from './without-undefined.js';

/** The fields that every element has, resolved. */
export interface ElementFields {
  readonly id: string;
  readonly nodes: readonly [string, string];
  readonly zone: Zone;
  readonly container: string;
  readonly label?: string;
  readonly pointer: string;
}

/** The common fields of an element that has been found without fault. */
export function elementFields(input: ElementInput, pointer: string): ElementFields {
  return withoutUndefined({
    id: input.id,
    nodes: nodePairOf(input.nodes),
    zone: input.zone,
    container: input.container ?? 'main',
    label: input.label,
    pointer,
  });
}

/** The two nodes of a list that the schema has found to hold two. */
export function nodePairOf(nodes: readonly string[]): readonly [string, string] {
  const pair = textPair(nodes);
  if (pair === undefined) throw new Error('read before it was validated: two nodes are wanted');
  return pair;
}
