/** The 24 values of a decade in the E24 series of IEC 60063, as whole numbers. */
const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91] as const;

const LOWEST_DECADE = -12;
const HIGHEST_DECADE = 12;

/**
 * The E24 values from `min` to `max`, both included, in rising order, within 1e-12 … 1e12.
 * @param most at most so many, counted from the largest down
 */
export function preferredValues(min: number, max: number, most = 240): readonly number[] {
  const found: number[] = [];
  const lowest = Math.max(LOWEST_DECADE, decadeOf(min) - 1);
  for (let decade = Math.min(HIGHEST_DECADE, decadeOf(max)); decade >= lowest && found.length < most; decade -= 1) {
    for (let index = E24.length - 1; index >= 0 && found.length < most; index -= 1) {
      // Parsed from text: 47 · 10^-1 as a product would be off in the last bit for some decades.
      const value = Number(`${E24[index]}e${decade - 1}`);
      if (value <= max && value >= min) found.push(value);
    }
  }
  return found.reverse();
}

function decadeOf(value: number): number {
  if (!(value > 0)) return LOWEST_DECADE;
  return Number.isFinite(value) ? Number(value.toExponential().split('e')[1]) : HIGHEST_DECADE;
}
