import type { Element, Toleranced } from '../../circuit/model.js';

/** Which value of a range to take. */
export type Choose = (value: Toleranced) => number;

/**
 * Ω of an element with every contact, plug and disconnect closed, for a direct current; `Infinity` for what carries
 * none. Accumulators never count as resistances, a machine counts as at rest.
 *
 * @param voltage V at which a load that states a current or a power is taken for a resistance.
 */
export function resistanceOf(element: Element, choose: Choose, voltage: number): number {
  switch (element.kind) {
    case 'contact':
    case 'fuse':
    case 'connector':
    case 'disconnect':
      return element.resistance ? choose(element.resistance) : 0;
    case 'resistor':
    case 'meter':
      return choose(element.resistance);
    case 'load':
      if (element.resistance) return choose(element.resistance);
      if (element.current) return quotient(voltage, element.current.max);
      if (element.power) return quotient(voltage * voltage, element.power.max);
      return Infinity;
    case 'accumulator':
    case 'capacitor':
    case 'machine':
      return Infinity;
  }
}

function quotient(dividend: number, divisor: number): number {
  return divisor > 0 ? dividend / divisor : Infinity;
}
