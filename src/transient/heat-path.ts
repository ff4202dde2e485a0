/** A resistor as a single thermal mass. */
export interface HeatPath {
  /** K/W to the ambient. */
  readonly resistance: number;
  /** J/K */
  readonly capacitance: number;
  /** Ω */
  readonly ohms: number;
}
