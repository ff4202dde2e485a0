import type { Element } from '../../src/circuit/model.js';
import { accumulator, capacitor, resistor } from './net.js';
import { decades, pick } from './random.js';

export interface Spread {
  /** log₁₀ Ω */
  readonly ohms: readonly [number, number];
  /** log₁₀ F */
  readonly farads: readonly [number, number];
}

const name = (k: number) => `n${String(k).padStart(2, '0')}`;

/**
 * Capacitors from a common node, joined and fed through random resistances: one source or none, purely resistive nodes between.
 * `chassis`: some capacitors hang on two other nodes instead, without closing a loop of capacitors.
 */
export function randomCircuit(
  next: () => number,
  states: number,
  spread: Spread,
  options: { readonly source: boolean; readonly general?: boolean },
): Element[] {
  const elements: Element[] = [];
  const ohms = () => decades(next, ...spread.ohms);
  const farads = () => decades(next, ...spread.farads);
  const inner = Math.floor(next() * 4);
  const count = states + inner + 1;
  // Node 0 is common; every other node hangs on an earlier one, so that all conduct to all.
  for (let k = 1; k < count; k += 1)
    elements.push(resistor(`r${name(k)}`, name(k), name(Math.floor(next() * k)), ohms()));
  for (let k = 0; k < states; k += 1) {
    const [a, b] = [1 + Math.floor(next() * (count - 1)), Math.floor(next() * count)];
    if (a !== b) elements.push(resistor(`x${name(k)}`, name(a), name(b), ohms()));
  }
  for (let k = 1; k <= states; k += 1) {
    // In a general circuit a capacitor ends on any earlier node: still a tree of capacitors.
    const end = options.general === true ? Math.floor(next() * k) : 0;
    elements.push(
      capacitor(`c${name(k)}`, name(k), name(end), farads(), {
        initialVoltage: pick(next, [0, 400 * next(), -50 * next()]),
      }),
    );
  }
  if (options.source) elements.push(accumulator('a', name(count - 1), name(0), 600, ohms()));
  return elements;
}
