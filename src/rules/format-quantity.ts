import { engineeringPrefix } from '../limits/engineering-prefix.js';

/** Units of the figures in messages. `%` takes a ratio, so that 0.95 reads `95 %`. */
export type Unit = 'V' | 'A' | 'Ω' | 'F' | 's' | 'J' | 'W' | '%' | '°C' | 'K/W' | 'J/K' | 'Ω/V';

/** Seconds are not counted in thousands, and temperatures, ratios and compound units take no prefix at all. */
const LARGEST_POWER: Readonly<Record<Unit, number | undefined>> = {
  V: 9,
  A: 9,
  Ω: 9,
  F: 0,
  s: 0,
  J: 9,
  W: 9,
  '%': undefined,
  '°C': undefined,
  'K/W': undefined,
  'J/K': undefined,
  'Ω/V': undefined,
};

/**
 * A quantity for reading: engineering prefix, at most `digits` significant digits, no trailing zeros: `1.412 kΩ`, `95.02 %`, `2.3 s`.
 * @param value SI; a ratio for `%`. An infinite value reads `without limit`.
 */
export function formatQuantity(value: number, unit: Unit, digits = 4): string {
  if (!Number.isFinite(value)) return 'without limit';
  const rounded = Number((unit === '%' ? value * 100 : value).toPrecision(digits));
  const largest = LARGEST_POWER[unit];
  if (largest === undefined || rounded === 0) return `${plainText(rounded)} ${unit}`;
  const { shifted, prefix } = engineeringPrefix(rounded, largest);
  return `${plainText(shifted)} ${prefix}${unit}`;
}

/** Without an exponent, and without a sign on zero. */
function plainText(value: number): string {
  const text = String(value === 0 ? 0 : value);
  return text.includes('e') ? value.toFixed(value > 1 ? 0 : 12) : text;
}
