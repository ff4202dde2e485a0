import { Type } from '@sinclair/typebox';
import { label, name, nodePair } from './names.js';
import { stringEnum } from './string-enum.js';

export const STRICT = { additionalProperties: false } as const;

/** The fields that every element has. */
export const elementBase = {
  id: name('Unique in the circuit.'),
  nodes: nodePair('[from, to]: current is positive from the first node to the second through the element.'),
  zone: stringEnum(['container', 'vehicle'], { description: 'Inside an accumulator container, or outside.' }),
  container: Type.Optional(name('Which container it stands in; `main` where not stated.')),
  label: Type.Optional(label('What people call it.')),
};
