import type { Capacitor, Element } from '../model.js';

/**
 * The intermediate circuit's nodes where the request names none: those of the largest capacitor in the vehicle zone,
 * by nominal value, of equal ones the one with the smallest id. `elements` stand in order of id.
 */
export function defaultLink(elements: readonly Element[]): readonly [string, string] | undefined {
  let largest: Capacitor | undefined;
  for (const element of elements) {
    if (element.kind !== 'capacitor' || element.zone !== 'vehicle') continue;
    if (largest === undefined || element.capacitance.nominal > largest.capacitance.nominal) largest = element;
  }
  return largest?.nodes;
}
