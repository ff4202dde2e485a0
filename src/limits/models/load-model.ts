import type { Facts } from '../../facts/facts.js';
import { type BoundedPart, worstOf } from '../bounded-part.js';
import { seriesLoad } from './series-load.js';

/** What a ratio above a level demands as a load at the link changes: each siemens adds the series resistance to 1/s − 1. */
export function loadModel(facts: Facts, part: BoundedPart, level: number): ((value: number) => number) | undefined {
  const load = seriesLoad(facts);
  const now = worstOf(part, 'min');
  if (load === undefined || !(now > 0)) return undefined;
  const { series, siemens } = load;
  return (value) => (series * (siemens - 1 / now + 1 / value)) / (1 / level - 1);
}
