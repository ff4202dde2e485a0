import { findBound } from '../find-bound.js';
import { riseTime } from './rise-time.js';

/** Ω through which a capacitor with a load across it reaches a ratio of the source in exactly the time; NaN where none does. */
export function slowestRise(capacitance: number, time: number, ratio: number, loadResistance: number): number {
  const unloaded = -time / (capacitance * Math.log1p(-ratio));
  if (loadResistance === Infinity || !(unloaded > 0) || unloaded === Infinity) return unloaded;
  const demand = (resistance: number): number => riseTime(resistance, capacitance, loadResistance, ratio) / time;
  const outcome = findBound({
    bound: 'max',
    demand,
    start: { value: unloaded, demand: demand(unloaded) },
    lowest: Math.min(unloaded, loadResistance) * 1e-12,
    highest: unloaded * 2,
  });
  return outcome.kind === 'bound' ? outcome.value : Number.NaN;
}
