/**
 * φ(λ, t) = ∫₀ᵗ e^(−λs) ds = (1 − e^(−λt)) / λ, with its limit t at λ = 0. For λ ≥ 0 and t ≥ 0; s.
 *
 * The response of one mode to a constant drive. Taken from expm1, it keeps its relative accuracy however small λt is, so
 * floating islands and nearly perfect capacitors need no case of their own.
 */
export function riseFunction(rate: number, time: number): number {
  return rate === 0 ? time : -Math.expm1(-rate * time) / rate;
}
