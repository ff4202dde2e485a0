import { preferredValues } from '../circuit/e-series.js';
import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import type { LimitRecord, WindowRecord } from './limit-record.js';
import { dischargeResistors, linkCapacitors, prechargeResistors } from './present-parts.js';
import { quantityText } from './quantity-text.js';

/** A decade of E24. */
const MOST_PREFERRED = 24;

/** The interval of nominals that the limits leave for each part of the pre-charge and discharge circuits, in order of id. */
export function computeWindows(facts: Facts, records: readonly LimitRecord[]): WindowRecord[] {
  const parts = new Map<string, BoundedPart>();
  for (const part of [...prechargeResistors(facts), ...dischargeResistors(facts), ...linkCapacitors(facts)]) {
    parts.set(part.id, part);
  }
  return [...parts.values()]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((part) =>
      windowOf(
        part,
        records.filter(({ element, unit }) => element === part.id && unit === part.unit),
      ),
    );
}

function windowOf({ id, unit }: BoundedPart, records: readonly LimitRecord[]): WindowRecord {
  const lower = records.find(({ bound, binding, nominal }) => bound === 'min' && binding && nominal !== null);
  const upper = records.find(({ bound, binding, nominal }) => bound === 'max' && binding && nominal !== null);
  const hopeless = records.find(({ outcome }) => outcome === 'no-value-helps');
  const min = lower?.nominal ?? null;
  const max = upper?.nominal ?? null;
  const crossed = min !== null && max !== null && min >= max;
  const empty = hopeless !== undefined || crossed;
  const sentences = [
    ...(hopeless === undefined ? [] : [`No value of ${id} satisfies ${hopeless.name} (rule ${hopeless.rule}).`]),
    ...(crossed
      ? [
          `${id} would have to be at least ${quantityText(min, unit)} (${lower?.name ?? ''}) and at most ${quantityText(max, unit)} (${upper?.name ?? ''}): no value is both.`,
        ]
      : []),
    ...records
      .filter(({ outcome }) => outcome === 'not-stated')
      .map(({ name, missing = [] }) => `Left out: ${name}, which cannot be computed without ${missing.join(', ')}.`),
  ];
  return {
    element: id,
    quantity: unit === 'Ω' ? 'resistance' : 'capacitance',
    unit,
    min,
    max,
    ...(lower === undefined ? {} : { minBy: lower.name }),
    ...(upper === undefined ? {} : { maxBy: upper.name }),
    empty,
    ...(sentences.length > 0 ? { explanation: sentences.join(' ') } : {}),
    preferred: empty ? [] : preferredInside(min, max),
  };
}

/**
 * E24 values strictly inside, the one farthest (as a ratio) from the nearer end first. With one end open the decade next to
 * the other is listed.
 */
function preferredInside(min: number | null, max: number | null): number[] {
  const inside = candidates(min, max).filter((value) => (min === null || value > min) && (max === null || value < max));
  const room = (value: number): number =>
    Math.min(min === null ? Infinity : value / min, max === null ? Infinity : max / value);
  return inside.sort((a, b) => room(b) - room(a) || a - b);
}

function candidates(min: number | null, max: number | null): number[] {
  if (min === null && max === null) return [];
  if (max === null) return [...preferredValues(min ?? 0, (min ?? 0) * 10, MOST_PREFERRED)];
  return [...preferredValues(min ?? 0, max, min === null ? MOST_PREFERRED : undefined)];
}
