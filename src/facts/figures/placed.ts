import type { Box } from '../../transient/box.js';
import type { NamedParameter } from './figure-of.js';

/** A share this near to an end of its range is that end. */
const AT_END = 1e-9;

/**
 * The box's single point at which each part stands where its share of its range says (−1…1, by the name that figures' `at` use), the
 * others at their nominal values.
 */
export function placed(
  { nominal, uncertain }: Box,
  names: readonly NamedParameter[],
  shares: Readonly<Record<string, number>>,
): Box {
  const values = nominal.slice();
  for (const { index, low, high } of uncertain) {
    const share = shares[names[index]?.name ?? ''];
    if (share === undefined) continue;
    const within = (low + high) / 2 + (share * (high - low)) / 2;
    values[index] = Math.abs(share - 1) < AT_END ? high : Math.abs(share + 1) < AT_END ? low : within;
  }
  return { nominal: values, uncertain: [] };
}
