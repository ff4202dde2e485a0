import type { Resistor } from '../../circuit/model.js';
import type { Piece } from '../../transient/piecewise.js';
import { temperatureAt } from '../../transient/temperature.js';

/** Instants tried a decade, then refined around the hottest. */
const PER_DECADE = 12;

/**
 * The hottest that a resistor gets in one rise up to `until`, °C, as a single thermal mass that starts at its ambient.
 *
 * Each value is a closed form. The heat comes in a pulse that only fades, so the temperature has one maximum; it is
 * bracketed on a logarithmic grid and closed in on.
 */
export function peakTemperature(
  resistor: Resistor,
  ohms: number,
  current: readonly Piece[],
  until: number,
  ambientMax: number | undefined,
): number {
  const ambient = resistor.ambientMax ?? ambientMax ?? Number.NaN;
  const { resistance = Number.NaN, capacitance = Number.NaN } = resistor.thermal ?? {};
  const timeConstant = resistance * capacitance;
  const riseAt = (time: number): number => temperatureAt(time, { ambient: 0, resistance, capacitance, ohms, current });
  const end = Number.isFinite(until) ? until : 100 * timeConstant;
  if (end === 0) return ambient;
  const times = [end];
  for (let k = 1; k <= 6 * PER_DECADE; k += 1) times.push(end * 10 ** (-k / PER_DECADE));
  times.sort((a, b) => a - b);
  let best = times.length - 1;
  const heat = times.map(riseAt);
  heat.forEach((value, k) => {
    if (value > (heat[best] as number)) best = k;
  });
  let low = times[Math.max(0, best - 1)] as number;
  let high = times[Math.min(times.length - 1, best + 1)] as number;
  const ratio = (Math.sqrt(5) - 1) / 2;
  for (let round = 0; round < 40; round += 1) {
    const left = high - ratio * (high - low);
    const right = low + ratio * (high - low);
    if (riseAt(left) > riseAt(right)) high = right;
    else low = left;
  }
  return ambient + Math.max(heat[best] as number, riseAt((low + high) / 2));
}
