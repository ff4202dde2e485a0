import { integralOfSquare, type Piece } from './piecewise.js';

/** A resistor as one thermal mass that starts at its ambient. */
export interface ThermalMass {
  /** °C */
  readonly ambient: number;
  /** K/W to the ambient. */
  readonly resistance: number;
  /** J/K */
  readonly capacitance: number;
  /** Ω */
  readonly ohms: number;
  readonly current: readonly Piece[];
}

/** °C at an instant: T = ambient + (R/C)·∫ i²·e^(−(t−s)/τ) ds, τ = R_th·C_th, in closed form. */
export function temperatureAt(time: number, { ambient, resistance, capacitance, ohms, current }: ThermalMass): number {
  return ambient + (ohms / capacitance) * integralOfSquare(current, time, 1 / (resistance * capacitance));
}
