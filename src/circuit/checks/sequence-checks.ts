import { capacities } from '../capacities.js';
import { closest } from '../closest.js';
import type { Directory } from '../directory.js';
import type { Fault } from '../fault.js';
import { isRecord } from '../is-record.js';
import { makeFault } from '../make-fault.js';
import { childPointer } from '../pointer.js';
import { readQuantity } from '../quantity.js';
import { quoted, quotedList } from '../quoted.js';
import { elementFaults, MOVABLE } from '../references.js';
import { relayFaults } from './relay-faults.js';

/** A step has fewer fields; one with more is a body full of faults, and is not searched for misspelt ones. */
const FIELDS = 20;
const TIMES = ['at', 'after', 'when'] as const;

/** Faults of meaning in a sequence; `directory` undefined where the circuit itself is not to be had. */
export function sequenceChecks(sequence: unknown, pointer: string, directory: Directory | undefined): Fault[] {
  if (!Array.isArray(sequence)) return [];
  const faults: Fault[] = [];
  /** s; no step so far runs later than this at the earliest. A `when` adds nothing: it may fire at once. */
  let earliest = 0;
  for (const [index, step] of (sequence as unknown[]).slice(0, capacities.steps).entries()) {
    if (!isRecord(step)) continue;
    if (faults.length > capacities.faults) break;
    const place = childPointer(pointer, index);
    faults.push(...timeCountFaults(step, place), ...contactFaults(step, place, directory));
    const at = timeIn(step, 'at');
    // Sums of `after` carry rounding: 0.1 s + 0.2 s must not count as later than 0.3 s.
    if (at !== undefined && at < earliest * (1 - 1e-12)) {
      const detail = `The step is set at ${at} s, before the step ahead of it (${earliest} s at the earliest).`;
      faults.push(makeFault(childPointer(place, 'at'), 'step-out-of-order', detail));
    }
    earliest = Math.max(earliest, at ?? 0) + (timeIn(step, 'after') ?? 0);
  }
  return faults;
}

function timeIn(step: Readonly<Record<string, unknown>>, key: 'at' | 'after'): number | undefined {
  const reading = readQuantity(step[key], 'time');
  return 'value' in reading ? reading.value : undefined;
}

function timeCountFaults(step: Readonly<Record<string, unknown>>, place: string): Fault[] {
  const given = TIMES.filter((key) => Object.hasOwn(step, key));
  // A misspelt time has its own fault already.
  const isMisspelt = (): boolean =>
    Object.keys(step)
      .slice(0, FIELDS)
      .some((key) => closest(key, TIMES) !== undefined);
  if (given.length === 1 || (given.length === 0 && isMisspelt())) return [];
  const stated = given.length === 0 ? 'none' : quotedList(given, 'and');
  const detail = `A step has exactly one of ${quotedList(TIMES, 'and')}; this one has ${stated}.`;
  return [makeFault(place, 'step-time-count', detail)];
}

function contactFaults(
  step: Readonly<Record<string, unknown>>,
  place: string,
  directory: Directory | undefined,
): Fault[] {
  const lists = { close: idsIn(step['close']), open: idsIn(step['open']) };
  const faults: Fault[] = [];
  for (const [list, ids] of Object.entries(lists)) {
    for (const [index, id] of ids.entries()) {
      const at = childPointer(place, list, index);
      if (directory !== undefined) faults.push(...elementFaults(id, at, directory, MOVABLE));
      if (list === 'open' && typeof id === 'string' && lists.close.includes(id)) {
        faults.push(makeFault(at, 'opened-and-closed', `${quoted(id)} is to close and to open in the same step.`));
      }
    }
  }
  if (directory !== undefined) faults.push(...relayFaults(lists.close, lists.open, place, directory));
  return faults;
}

function idsIn(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value.slice(0, capacities.contactsPerStep) : [];
}
