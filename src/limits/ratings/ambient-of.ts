import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';

/** °C around a resistor: its own, else the car's; undefined where neither is stated. */
export function ambientOf(resistor: Resistor, circuit: ResolvedCircuit): number | undefined {
  return resistor.ambientMax ?? circuit.ambientMax;
}
