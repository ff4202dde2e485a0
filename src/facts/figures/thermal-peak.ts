import type { Resistor } from '../../circuit/model.js';
import { ExponentialSum } from '../../transient/exponential-sum.js';
import type { Piece } from '../../transient/piecewise.js';
import { type Pulses, ThermalHistory } from '../../transient/thermal-history.js';

/** What a resistor's temperature is computed from. */
export interface Thermal {
  /** °C */
  readonly ambient: number;
  /** K/W */
  readonly resistance: number;
  /** J/K */
  readonly capacitance: number;
}

/** The resistor as a single thermal mass at its ambient, or the pointers of what is not stated of it. */
export function thermalOf(
  resistor: Resistor,
  ambientMax: number | undefined,
): Thermal | { readonly missing: string[] } {
  const ambient = resistor.ambientMax ?? ambientMax;
  const { resistance, capacitance } = resistor.thermal ?? {};
  if (ambient !== undefined && resistance !== undefined && capacitance !== undefined)
    return { ambient, resistance, capacitance };
  const { pointer } = resistor;
  return {
    missing: [
      ...(resistance === undefined ? [`${pointer}/thermal/resistance`] : []),
      ...(capacitance === undefined ? [`${pointer}/thermal/capacitance`] : []),
      ...(ambient === undefined ? [`${pointer}/ambientMax`] : []),
    ],
  };
}

/** The hottest that it gets over rows of pulses, °C. */
export function thermalPeak({ ambient, ...mass }: Thermal, ohms: number, rows: readonly Pulses[]): number {
  return ambient + new ThermalHistory({ ...mass, ohms }, rows).peak();
}

/** A single pulse that ends at `until` s; Infinity: it is left on. */
export function once(current: readonly Piece[], until: number): readonly Pulses[] {
  return [{ current, until, count: 1, interval: Infinity }];
}

/** Whole pulses from start to start of `interval` s, or of their own length where that is longer. */
export function backToBack(count: number, interval: number) {
  return (current: readonly Piece[], until: number): readonly Pulses[] => [
    { current, until, count, interval: Math.max(interval, until) },
  ];
}

/** Pulses cut where the next begins, and the last of them whole. */
export function withLastWhole(current: readonly Piece[], count: number, interval: number): readonly Pulses[] {
  return [
    ...(count > 1 ? [{ current, until: interval, count: count - 1, interval }] : []),
    { current, until: Infinity, count: 1, interval: Infinity },
  ];
}

/** 1 A held for a duration, time and again: with the power in place of the resistance it is that power held. */
export function held(duration: number, count: number, interval: number): Pulses {
  const current = [{ start: 0, end: Infinity, signal: ExponentialSum.constant(1) }];
  return { current, until: duration, count, interval: Math.max(interval, duration) };
}
