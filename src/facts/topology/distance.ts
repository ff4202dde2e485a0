import type { WirePart } from './wiring.js';

/** How far a search has come: every field is a sum over the elements passed, so a path measures the same from either end. */
export interface Distance {
  /** Ω */
  readonly resistance: number;
  /** Number of elements. */
  readonly length: number;
  /** Lower for elements that come earlier by id; decides between paths that are equal otherwise. */
  readonly rank: number;
}

/** The distance at which a search begins. */
export const NOWHERE: Distance = { resistance: 0, length: 0, rank: 0 };

/** The distance one element further. */
export function further(distance: Distance, part: WirePart, ohms: number): Distance {
  return {
    resistance: distance.resistance + ohms,
    length: distance.length + 1,
    // Cubes, so that two different sets of ids hardly ever add up to the same.
    rank: distance.rank + (part.index + 1) ** 3,
  };
}

/** True where the first is nearer: less resistance, then fewer elements, then earlier ids. */
export function isNearer(one: Distance, other: Distance): boolean {
  if (one.resistance !== other.resistance) return one.resistance < other.resistance;
  if (one.length !== other.length) return one.length < other.length;
  return one.rank < other.rank;
}

/** Removes and gives the nearest of a list. A scan: the frontier of a car's circuit holds a handful. */
export function takeNearest<T extends { readonly distance: Distance }>(frontier: T[]): T | undefined {
  let best = frontier[0];
  let place = 0;
  for (let index = 1; index < frontier.length; index += 1) {
    const candidate = frontier[index];
    if (best && candidate && isNearer(candidate.distance, best.distance)) {
      best = candidate;
      place = index;
    }
  }
  const last = frontier.pop();
  if (best && last && last !== best) frontier[place] = last;
  return best;
}
