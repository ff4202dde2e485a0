import type { RelayRoles } from './relay-roles.js';

/**
 * Ω below which a way counts as one that the rise takes: the isolation resistance, or twice that of all pre-charge
 * resistors where they are larger, so that a pre-charge resistor of far too many ohms still counts.
 */
export function riseBound({ prechargeResistors }: RelayRoles, isolation: number): number {
  let total = 0;
  for (const { element } of prechargeResistors) if (element.kind === 'resistor') total += element.resistance.nominal;
  return Math.max(isolation, 2 * total);
}
