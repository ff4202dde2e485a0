/** Ω of resistances in parallel; infinite for none. Textbook: conductances add. */
export function parallelResistance(resistances: readonly number[]): number {
  return 1 / resistances.reduce((sum, resistance) => sum + 1 / resistance, 0);
}
