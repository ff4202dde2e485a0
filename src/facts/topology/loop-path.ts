import type { ConductingPath } from '../facts.js';
import type { Loop } from './loop-through-accumulators.js';

/** A loop as a path for the answer, from `link[0]` through the accumulators to `link[1]`. */
export function loopPath(loop: Loop): ConductingPath {
  return {
    elements: loop.parts.map(({ element }) => element.id),
    nodes: loop.nodes.map(({ name }) => name),
    resistance: loop.resistance,
  };
}
