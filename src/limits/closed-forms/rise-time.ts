/**
 * s until a capacitor behind a series resistance, a load across it, reaches the ratio p of the source:
 * v/U = s·(1 − e^(−t/τ)) with s = L/(R + L) and τ = C·R·L/(R + L). Infinite where s ≤ p. Textbook first-order charging.
 */
export function riseTime(resistance: number, capacitance: number, loadResistance: number, ratio: number): number {
  const share = loadResistance === Infinity ? 1 : loadResistance / (resistance + loadResistance);
  return share <= ratio ? Infinity : -resistance * share * capacitance * Math.log1p(-ratio / share);
}
