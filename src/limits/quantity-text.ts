import { engineeringPrefix } from './engineering-prefix.js';

/** Digits in a formula: enough to follow it with a pocket calculator. */
const DIGITS = 5;

/** A value in a formula, with engineering prefix and unit: `2.4737 kΩ`; seconds and plain ratios (unit '') without prefix. */
export function quantityText(value: number, unit: string): string {
  if (!Number.isFinite(value)) return 'without limit';
  const rounded = Number(value.toPrecision(DIGITS));
  if (unit === '' || unit === 's' || rounded === 0) return unit === '' ? String(rounded) : `${rounded} ${unit}`;
  const { shifted, prefix } = engineeringPrefix(rounded, 9);
  return `${shifted} ${prefix}${unit}`;
}

/** `95 %` for 0.95. */
export function percentText(ratio: number): string {
  return `${Number((ratio * 100).toPrecision(DIGITS))} %`;
}
