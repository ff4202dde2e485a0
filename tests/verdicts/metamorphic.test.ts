import { describe, expect, it } from 'vitest';
import { judged } from './judged.js';
import { type Labelled, labelledSet } from './labelled-set.js';
import {
  permuted,
  polesSwapped,
  randomFrom,
  renamed,
  shuffled,
  split,
  withUnconnectedParts,
} from './transformations.js';
import type { Circuit } from './wire.js';

const random = randomFrom(11);
const sample = shuffled(labelledSet(1), random).slice(0, 16);

const statuses = (circuit: Circuit, { book }: Labelled) =>
  Object.fromEntries(judged(circuit, book.id).map(({ rule, status }) => [rule, status]));

const before = new Map<Labelled, Readonly<Record<string, string>>>();

function unchangedBy(labelled: Labelled, transformed: Circuit): void {
  const known = before.get(labelled) ?? statuses(labelled.circuit, labelled);
  before.set(labelled, known);
  expect(statuses(transformed, labelled)).toEqual(known);
}

const resistors = sample.flatMap((labelled) =>
  labelled.circuit.elements.filter(({ kind }) => kind === 'resistor').map(({ id }) => ({ labelled, id })),
);

describe('no finding changes', () => {
  it.each(sample)('with every node and every id under another name: $name', (labelled) =>
    unchangedBy(labelled, renamed(labelled.circuit, random)),
  );

  it.each(sample)('with the poles exchanged: $name', (labelled) =>
    unchangedBy(labelled, polesSwapped(labelled.circuit)),
  );

  it.each(sample)('with parts beside it that touch nothing of it: $name', (labelled) =>
    unchangedBy(labelled, withUnconnectedParts(labelled.circuit)),
  );

  it.each(sample)('with the elements in another order: $name', (labelled) =>
    unchangedBy(labelled, permuted(labelled.circuit, random)),
  );

  it.each(shuffled(resistors, random).slice(0, 24))('with $id in two halves: $labelled.name', ({ labelled, id }) =>
    unchangedBy(labelled, split(labelled.circuit, id)),
  );
});
