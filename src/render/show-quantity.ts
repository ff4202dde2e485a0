import { formatQuantity, type Unit } from '../rules/format-quantity.js';

const KNOWN: ReadonlySet<string> = new Set<Unit>(['V', 'A', 'Ω', 'F', 's', 'J', 'W', '%', '°C', 'K/W', 'J/K', 'Ω/V']);

/** A value for reading, engineering prefix and unit. An empty unit is a ratio and reads in percent. */
export function showQuantity(value: number, unit: string): string {
  if (unit === '') return formatQuantity(value, '%');
  return isUnit(unit) ? formatQuantity(value, unit) : `${Number(value.toPrecision(4))} ${unit}`;
}

function isUnit(unit: string): unit is Unit {
  return KNOWN.has(unit);
}
