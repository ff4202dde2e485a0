import type { Values } from '../../transient/compiled-circuit.js';

/** How many are kept: the corners that a circuit's figures share, and the single moves that each figure's search begins with. */
const KEPT = 96;

/** What was computed at the last few sets of values, found again by the values themselves: runs are asked for more often than made. */
export class ByValues<T> {
  private readonly known: { readonly hash: number; readonly values: Values; readonly made: T }[] = [];
  private next = 0;

  /** @param make gets a copy of its own: a search goes on with the same array */
  get(values: Values, make: (values: Values) => T): T {
    const hash = hashOf(values);
    for (const each of this.known) if (each.hash === hash && same(each.values, values)) return each.made;
    const own = values.slice();
    const made = make(own);
    this.known[this.next] = { hash, values: own, made };
    this.next = (this.next + 1) % KEPT;
    return made;
  }
}

/** A number that almost always differs where the values do; what it cannot tell apart is compared one by one. */
function hashOf(values: Values): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum = sum * 0.75 + (values[i] as number) * (i + 1);
  return sum;
}

function same(one: Values, other: Values): boolean {
  for (let i = 0; i < one.length; i += 1) if (one[i] !== other[i]) return false;
  return one.length === other.length;
}
