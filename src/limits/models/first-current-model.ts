import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { type BoundedPart, worstOf } from '../bounded-part.js';

/**
 * The current or power that the highest voltage drives through a part over what is allowed, as its resistance changes: U/(R + T) and U²·R/(R + T)²,
 * with the T in series that the present figure tells. Ohm's law, textbook.
 */
export function firstCurrentModel(
  { openCircuitVoltage }: Facts,
  part: BoundedPart,
  present: Figure,
  { kind, allowed }: { readonly kind: 'current' | 'power'; readonly allowed: number },
): ((value: number) => number) | undefined {
  const volts = openCircuitVoltage.max ?? 0;
  const now = worstOf(part, 'min');
  if (!(present.max !== null && present.max > 0 && volts > 0 && now > 0)) return undefined;
  const whole = kind === 'current' ? volts / present.max : volts * Math.sqrt(now / present.max);
  const other = Math.max(0, whole - now);
  return kind === 'current'
    ? (value) => volts / (value + other) / allowed
    : (value) => (volts ** 2 * value) / (value + other) ** 2 / allowed;
}
