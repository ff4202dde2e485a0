/** A series of preferred values: the numbers of one decade, and the tolerance that goes with it. */
export interface Series {
  readonly name: 'E24' | 'E96';
  /** Whole numbers of `digits` digits, in rising order. */
  readonly values: readonly number[];
  readonly digits: number;
  /** Relative, symmetric: the tolerance that IEC 60063 ties to the series. */
  readonly tolerance: number;
}

/** IEC 60063, tabulated: the values of E24 do not all follow from its formula. */
export const E24: Series = {
  name: 'E24',
  values: [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91],
  digits: 2,
  tolerance: 0.05,
};

/** IEC 60063: 100·10^(n/96), rounded to three digits. */
export const E96: Series = {
  name: 'E96',
  values: Array.from({ length: 96 }, (_, n) => Math.round(100 * 10 ** (n / 96))),
  digits: 3,
  tolerance: 0.01,
};

const LOWEST_DECADE = -12;
const HIGHEST_DECADE = 12;

/**
 * The values of a series from `min` to `max`, both included, in rising order, within 1e-12 … 1e12.
 * @param most at most so many, counted from the largest down
 */
export function preferredValues(min: number, max: number, most = 240, series: Series = E24): readonly number[] {
  const { values, digits } = series;
  const found: number[] = [];
  const lowest = Math.max(LOWEST_DECADE, decadeOf(min) - 1);
  for (let decade = Math.min(HIGHEST_DECADE, decadeOf(max)); decade >= lowest && found.length < most; decade -= 1) {
    for (let index = values.length - 1; index >= 0 && found.length < most; index -= 1) {
      // Parsed from text: 47 · 10^-1 as a product would be off in the last bit for some decades.
      const value = Number(`${values[index]}e${decade - digits + 1}`);
      if (value <= max && value >= min) found.push(value);
    }
  }
  return found.reverse();
}

function decadeOf(value: number): number {
  if (!(value > 0)) return LOWEST_DECADE;
  return Number.isFinite(value) ? Number(value.toExponential().split('e')[1]) : HIGHEST_DECADE;
}
