import type { Box } from '../../transient/box.js';
import type { Values } from '../../transient/compiled-circuit.js';
import type { SingleMove } from '../facts.js';
import type { NamedParameter } from './figure-of.js';

/** What comes of moving each uncertain part alone to the ends of its range, all others at nominal. */
export function singleMoves<T>(box: Box, names: readonly NamedParameter[], at: (values: Values) => T): SingleMove<T>[] {
  return box.uncertain.flatMap(({ index, low, high }) => {
    const name = names[index]?.name;
    if (name === undefined) return [];
    const put = (value: number): T => {
      const values = box.nominal.slice();
      values[index] = value;
      return at(values);
    };
    return [{ element: name, low: put(low), high: put(high) }];
  });
}
