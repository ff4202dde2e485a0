import type { Conditions } from '../../facts/conditions.js';

/** How far a nominal value may lie from the book's: 5.1 kΩ for 5 kΩ, which is in no E series. Ours. */
const NEAR = 0.05;

/** Ω that a book wants behind each measuring point, nominal, and what is near enough. */
export interface WantedProtection {
  readonly resistance: number;
  readonly lowest: number;
  readonly highest: number;
}

/** What the book wants at a highest voltage; undefined where it names no resistor for as much. */
export function wantedProtection(volts: number, { bodyProtection = [] }: Conditions): WantedProtection | undefined {
  const row = [...bodyProtection].sort((a, b) => a.upTo - b.upTo).find(({ upTo }) => volts <= upTo);
  if (row === undefined) return undefined;
  const { resistance } = row;
  return { resistance, lowest: resistance * (1 - NEAR), highest: resistance * (1 + NEAR) };
}
