/**
 * s that R·C may be at most for a capacitor to fall from a voltage to a limit in a time: t/ln(U/u), from u = U·e^(−t/RC).
 * Infinite where nothing has to fall. Textbook.
 */
export function fallConstant(time: number, voltage: number, limitVoltage: number): number {
  const decays = Math.log(voltage / limitVoltage);
  return decays > 0 ? time / decays : Infinity;
}
