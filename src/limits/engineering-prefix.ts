const PREFIXES: ReadonlyMap<number, string> = new Map([
  [9, 'G'],
  [6, 'M'],
  [3, 'k'],
  [0, ''],
  [-3, 'm'],
  [-6, 'µ'],
  [-9, 'n'],
  [-12, 'p'],
]);

/**
 * A number by its engineering prefix.
 * @param value finite and not 0, rounded as it is to be shown
 * @param largest power of ten of the largest prefix that it may take
 */
export function engineeringPrefix(
  value: number,
  largest: number,
): { readonly shifted: number; readonly prefix: string } {
  const [digits = '', exponent] = value.toExponential().split('e');
  const decade = Number(exponent);
  const power = Math.min(largest, Math.max(-12, Math.floor(decade / 3) * 3));
  // Shifting the decimal exponent of the text keeps 0.00047 from becoming 470.00000000000006.
  return { shifted: Number(`${digits}e${String(decade - power)}`), prefix: PREFIXES.get(power) ?? '' };
}
