/**
 * Ω in series above which a load no longer gets the ratio p of the source: R = L·(1 − p)/p, from L/(R + L) = p. The voltage
 * divider of any textbook.
 */
export function dividerResistance(loadResistance: number, ratio: number): number {
  return (loadResistance * (1 - ratio)) / ratio;
}
