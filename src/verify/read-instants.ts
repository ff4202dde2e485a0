import { capacities } from '../circuit/capacities.js';
import type { Fault } from '../circuit/fault.js';
import { childPointer } from '../circuit/pointer.js';
import { readQuantity } from '../circuit/quantity.js';
import type { Instants } from './transients-schema.js';

/** Enough for a smooth curve; a whole number of intervals per percent of the duration, twice over. */
const DEFAULT_SAMPLES = 201;

interface Given {
  readonly times?: unknown;
  readonly duration?: unknown;
  readonly samples?: unknown;
}

/** Reads the instants of a request: `times`, or `duration` with `samples`. `pointer` is the request's own place. */
export function readInstants(
  given: Given,
  pointer: string,
): { readonly instants: Instants } | { readonly faults: readonly Fault[] } {
  const { times, duration, samples } = given;
  const faults: Fault[] = [];
  if (times !== undefined && (duration !== undefined || samples !== undefined)) {
    const detail = 'Instants are given by `times`, or by `duration` with `samples`, not by both.';
    faults.push({ pointer: childPointer(pointer, 'times'), code: 'times-or-samples', detail });
  }
  const length = duration === undefined ? undefined : readQuantity(duration, 'time');
  if (length !== undefined && 'code' in length) faults.push({ pointer: childPointer(pointer, 'duration'), ...length });
  if (samples !== undefined) faults.push(...sampleFaults(samples, childPointer(pointer, 'samples')));
  const listed = times === undefined ? undefined : readTimes(times, childPointer(pointer, 'times'));
  if (listed !== undefined) faults.push(...listed.faults);

  if (faults.length > 0) return { faults };
  if (listed !== undefined) return { instants: { times: listed.times } };
  const count = samples === undefined ? DEFAULT_SAMPLES : Number(samples);
  if (length === undefined || 'code' in length) return { instants: { samples: count } };
  return { instants: { duration: length.value, samples: count } };
}

function sampleFaults(samples: unknown, pointer: string): Fault[] {
  const accepted = `a whole number from 2 to ${capacities.instants}`;
  if (typeof samples !== 'number' || !Number.isInteger(samples)) {
    return [{ pointer, code: 'wrong-type', detail: '`samples` must be a whole number.', accepted }];
  }
  if (samples > capacities.instants) return [tooCostly(samples, pointer)];
  if (samples >= 2) return [];
  return [
    { pointer, code: 'out-of-bounds', detail: '`samples` must be at least 2: both ends are included.', accepted },
  ];
}

function readTimes(input: unknown, pointer: string): { times: number[]; faults: Fault[] } {
  if (!Array.isArray(input)) {
    return {
      times: [],
      faults: [{ pointer, code: 'wrong-type', detail: '`times` must be a list.', accepted: 'a list of times' }],
    };
  }
  if (input.length === 0) {
    return { times: [], faults: [{ pointer, code: 'wrong-length', detail: '`times` must hold at least one time.' }] };
  }
  if (input.length > capacities.instants) return { times: [], faults: [tooCostly(input.length, pointer)] };
  const times: number[] = [];
  const faults: Fault[] = [];
  let latest = Number.NEGATIVE_INFINITY;
  for (const [index, item] of input.entries()) {
    const reading = readQuantity(item, 'time');
    if ('code' in reading) {
      faults.push({ pointer: childPointer(pointer, index), ...reading });
      continue;
    }
    if (reading.value < latest) {
      const detail = `The time ${reading.value} s is earlier than one before it (${latest} s); times must not fall.`;
      faults.push({ pointer: childPointer(pointer, index), code: 'unordered-times', detail });
    }
    latest = Math.max(latest, reading.value);
    times.push(reading.value);
  }
  return { times, faults };
}

function tooCostly(count: number, pointer: string): Fault {
  return {
    pointer,
    code: 'too-costly',
    detail: `The request asks for ${count} instants; the largest allowed is ${capacities.instants}.`,
    accepted: `at most ${capacities.instants}`,
  };
}
