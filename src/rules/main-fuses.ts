import type { Fuse } from '../circuit/model.js';
import type { Facts } from '../facts/facts.js';
import { carriesTraction } from './carries-traction.js';

/** The fuses inside a container that carry its traction current, in order of id. */
export function mainFuses({ circuit, topology }: Facts, container: string): readonly Fuse[] {
  return circuit.elements
    .filter((element) => element.kind === 'fuse')
    .filter(
      (fuse) => fuse.zone === 'container' && fuse.container === container && carriesTraction(circuit, topology, fuse),
    );
}
