import type { Facts } from '../../facts/facts.js';
import { prechargeResistors } from '../present-parts.js';

/** A rise through one resistance into resistances, as it acts at its worst. */
export interface SeriesLoad {
  /** Ω of the pre-charge resistors at their largest. */
  readonly series: number;
  /** S of all that loads the rise. */
  readonly siemens: number;
}

/** From the divider s = 1/(1 + R·G); undefined where the link settles nowhere or nothing is in series. */
export function seriesLoad(facts: Facts): SeriesLoad | undefined {
  const series = prechargeResistors(facts).reduce((sum, { present, upward }) => sum + present * (1 + upward), 0);
  const settles = facts.rise.steadyRatio.min ?? 0;
  return series > 0 && settles > 0 ? { series, siemens: Math.max(0, 1 / settles - 1) / series } : undefined;
}
