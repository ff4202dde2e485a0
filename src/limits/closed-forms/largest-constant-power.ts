/**
 * W that can be drawn behind a series resistance, a load L beside it, with the voltage still at or above the ratio p of the
 * source. Source and resistances act as U' = U·L/(R + L) behind R ∥ L (Thévenin); v·(U' − v)/(R ∥ L) is what is left at v, and
 * below U'/2 no voltage is stable (maximum power transfer). Textbook.
 */
export function largestConstantPower(
  voltage: number,
  resistance: number,
  loadResistance: number,
  ratio: number,
): number {
  const share = loadResistance === Infinity ? 1 : loadResistance / (resistance + loadResistance);
  const source = voltage * share;
  const at = Math.max(voltage * ratio, source / 2);
  return (at * (source - at)) / (resistance * share);
}
