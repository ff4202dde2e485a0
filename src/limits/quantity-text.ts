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

/** Digits in a formula: enough to follow it with a pocket calculator. */
const DIGITS = 5;

/** A value in a formula, with engineering prefix and unit: `2.4737 kΩ`; seconds and plain ratios (unit '') without prefix. */
export function quantityText(value: number, unit: string): string {
  if (!Number.isFinite(value)) return 'without limit';
  const rounded = Number(value.toPrecision(DIGITS));
  if (unit === '' || unit === 's' || rounded === 0) return unit === '' ? String(rounded) : `${rounded} ${unit}`;
  const decade = Number(rounded.toExponential().split('e')[1]);
  const power = Math.min(9, Math.max(-12, Math.floor(decade / 3) * 3));
  // The exponent of the text is shifted: a division would leave 470.00000000000006.
  const shifted = Number(`${rounded.toExponential().split('e')[0] ?? ''}e${decade - power}`);
  return `${shifted} ${PREFIXES.get(power) ?? ''}${unit}`;
}

/** `95 %` for 0.95. */
export function percentText(ratio: number): string {
  return `${Number((ratio * 100).toPrecision(DIGITS))} %`;
}
