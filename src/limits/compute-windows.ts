import { E24, E96 } from '../circuit/e-series.js';
import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import { boundsOn } from './bounds-on.js';
import type { LimitRecord, WindowRecord } from './limit-record.js';
import { type OwnTolerance, preferredInside, type TrueBounds } from './preferred-inside.js';
import { dischargeResistors, linkCapacitors, prechargeResistors } from './present-parts.js';
import { quantityText } from './quantity-text.js';
import { whoWants } from './who-wants.js';

/** Of the E96 values inside, which can be hundreds. */
const MOST_E96 = 24;

/** Where no nominal keeps the present tolerance, parts of a narrower one are asked for. */
const NARROWER: OwnTolerance = { upward: 0, downward: 0 };

/** The interval of nominals that the limits leave for each part of the pre-charge and discharge circuits, in order of id. */
export function computeWindows(facts: Facts, records: readonly LimitRecord[]): WindowRecord[] {
  const parts = new Map<string, BoundedPart>();
  for (const part of [...prechargeResistors(facts), ...dischargeResistors(facts), ...linkCapacitors(facts)]) {
    parts.set(part.id, part);
  }
  return [...parts.values()]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((part) => windowOf(part, boundsOn(facts, part, records)));
}

function windowOf(part: BoundedPart, records: readonly LimitRecord[]): WindowRecord {
  const { id, unit } = part;
  const lower = records.find(({ bound, binding, nominal }) => bound === 'min' && binding && nominal !== null);
  const upper = records.find(({ bound, binding, nominal }) => bound === 'max' && binding && nominal !== null);
  const hopeless = records.find(({ outcome }) => outcome === 'no-value-helps');
  const min = lower?.nominal ?? null;
  const max = upper?.nominal ?? null;
  const crossed = min !== null && max !== null && min >= max;
  const empty = hopeless !== undefined || crossed;
  const leftOut = records.filter(({ outcome }) => outcome === 'too-costly');
  // What one bound that was not looked for would say of a preferred value is not known.
  const bounds = hopeless === undefined && leftOut.length === 0 ? trueBounds(records) : undefined;
  const tolerance = crossed ? NARROWER : part;
  const preferred = bounds === undefined ? [] : preferredInside(bounds, E24, tolerance);
  const preferredE96 = bounds === undefined ? [] : preferredInside(bounds, E96, tolerance, MOST_E96);
  const sentences = [
    ...(hopeless === undefined ? [] : [`No value of ${id} satisfies ${hopeless.name} (rule ${hopeless.rule}).`]),
    ...(crossed ? [crossedText(id, unit, { name: lower?.name, min }, { name: upper?.name, max })] : []),
    ...(crossed && preferredE96.length > 0
      ? ['That is at the present tolerance: parts of a narrower one leave the preferred values listed.']
      : []),
    ...leftOut.map(({ name }) => `Left out: ${name}, whose bound would be more work than one request may ask for.`),
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
    preferred,
    preferredE96,
  };
}

/** The tightest bounds on the true value. */
function trueBounds(records: readonly LimitRecord[]): TrueBounds {
  const values = (wanted: 'min' | 'max'): readonly number[] =>
    records.flatMap(({ bound, value }) => (bound === wanted && value !== null ? [value] : []));
  const [lows, highs] = [values('min'), values('max')];
  return {
    above: lows.length === 0 ? null : Math.max(...lows),
    below: highs.length === 0 ? null : Math.min(...highs),
  };
}

function crossedText(
  id: string,
  unit: string,
  { name: minBy = '', min }: { readonly name: string | undefined; readonly min: number },
  { name: maxBy = '', max }: { readonly name: string | undefined; readonly max: number },
): string {
  const high = `${whoWants(maxBy)} wants less than ${quantityText(max, unit)}`;
  const low = `${whoWants(minBy)} wants more than ${quantityText(min, unit)}`;
  return `No value of ${id} suits both: ${high}, ${low}.`;
}
