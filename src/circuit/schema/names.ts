import { Type } from '@sinclair/typebox';
import { capacities } from '../capacities.js';
import { ref } from './ref.js';

/** Printable: a line break or a null character in a name would break every report that shows it. */
export const PRINTABLE = '^[^\\u0000-\\u001F\\u007F]*$';

/** The name of an element, node, container or relay. */
export function name(description?: string) {
  const options = { minLength: 1, maxLength: capacities.nameLength, pattern: PRINTABLE };
  return Type.String(description === undefined ? options : { ...options, description });
}

/** Free text on one line. */
export function label(description: string) {
  return Type.String({ maxLength: capacities.labelLength, pattern: PRINTABLE, description });
}

export const NodePairSchema = Type.Array(name(), {
  $id: 'NodePair',
  minItems: 2,
  maxItems: 2,
  description: 'Two nodes [a, b]; a voltage between them is v(a) − v(b).',
  examples: [['lp', 'ln']],
});

/** A field that holds two nodes. */
export function nodePair(description?: string) {
  return ref(NodePairSchema, description === undefined ? {} : { description });
}

/** A list of element ids, each once. */
export function idList(description: string, maxItems: number) {
  return Type.Array(name(), { uniqueItems: true, maxItems, description });
}
