import type { Figure } from '../figure.js';

const REASONS: ReadonlySet<string> = new Set(['not-stated', 'ideal-loop', 'no-state-holds']);

/** Whether there is no figure though there may be one: the description does not suffice for it. */
export function isOpen({ nominal, reason }: Figure): boolean {
  return nominal === null && reason !== undefined && REASONS.has(reason);
}
