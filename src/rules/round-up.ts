/** The value rounded up to so many significant digits: a demand must not shrink in the rounding. Positive values. */
export function roundUp(value: number, digits: number): number {
  if (!Number.isFinite(value) || value <= 0) return value;
  const nearest = Number(value.toPrecision(digits));
  if (nearest >= value) return nearest;
  const step = 10 ** (Math.floor(Math.log10(value)) - digits + 1);
  return Number((nearest + step).toPrecision(digits));
}
