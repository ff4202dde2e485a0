import type { Part } from './column.js';

/** An element as it is drawn: wired, and still without the values that its columns fill. */
export interface DraftElement {
  readonly part: Part;
  readonly fields: Record<string, unknown>;
}

interface Place {
  readonly zone: 'container' | 'vehicle';
  readonly container?: string;
}

/** Outside every container. */
export const VEHICLE: Place = { zone: 'vehicle' };

/** Inside the container of that name. */
export function inside(container: string): Place {
  return { zone: 'container', container };
}

export function draft(
  part: Part,
  kind: string,
  id: string,
  nodes: readonly [string, string],
  place: Place,
  more: Readonly<Record<string, unknown>> = {},
): DraftElement {
  return { part, fields: { id, kind, nodes: [...nodes], ...place, ...more } };
}
