import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  capacities,
  comparePointers,
  pointerKeys,
  readCircuit,
  readEvent,
  readSequence,
} from '../../src/circuit/index.js';
import { arbitraryCircuit } from './arbitrary-circuit.js';
import './seed.js';

/** A copy of a JSON value with the value at one place, picked by the numbers, replaced. */
function replaceAt(value: unknown, picks: readonly number[], replacement: unknown): unknown {
  const [pick = 0, ...rest] = picks;
  if (typeof value !== 'object' || value === null || picks.length === 0) return replacement;
  const keys = Object.keys(value);
  const chosen = keys[pick % Math.max(keys.length, 1)];
  const copy: Record<string, unknown> | unknown[] = Array.isArray(value) ? [...(value as unknown[])] : { ...value };
  if (chosen !== undefined)
    (copy as Record<string, unknown>)[chosen] = replaceAt((value as never)[chosen], rest, replacement);
  return copy;
}

describe('reading', () => {
  test('never throws, whatever JSON it is given, and orders its faults', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (input) => {
        for (const reading of [readCircuit(input, '#'), readSequence(input, '#', undefined), readEvent(input, '#')]) {
          const faults = 'faults' in reading ? reading.faults : [];
          expect([...faults].sort((a, b) => comparePointers(a.pointer, b.pointer))).toEqual(faults);
        }
      }),
    );
  });

  test('never throws for a sound circuit with one value replaced, and every fault points to a place or a missing key', () => {
    const place = fc.array(fc.nat(20), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(arbitraryCircuit, place, fc.jsonValue({ maxDepth: 1 }), (input, picks, replacement) => {
        const changed = replaceAt(input, picks, replacement);
        const reading = readCircuit(changed, '#');
        for (const fault of 'faults' in reading ? reading.faults : []) {
          const parents = pointerKeys(fault.pointer).slice(0, -1);
          let at: unknown = changed;
          for (const key of parents) {
            expect(at, fault.pointer).toBeTypeOf('object');
            at = (at as Record<string, unknown>)[key];
          }
          expect(at, `${fault.pointer} ${JSON.stringify(changed)}`).not.toBeUndefined();
        }
      }),
      { numRuns: 500 },
    );
  });

  test('takes no field from an object’s prototype', () => {
    expect(readCircuit(JSON.parse('{"__proto__": {"elements": []}, "constructor": 1}'), '#')).toMatchObject({
      faults: [
        { pointer: '#/__proto__', code: 'unknown-field' },
        { pointer: '#/constructor', code: 'unknown-field' },
        { pointer: '#/elements', code: 'missing-field' },
      ],
    });
  });

  test('of a body full of faults lists the published number and says that there are more', () => {
    const unknown = Object.fromEntries(Array.from({ length: 50 }, (_, index) => [`k${index}`, 1]));
    const elements = Array.from({ length: 200 }, () => ({ id: 'x', kind: 'fuse', ...unknown }));
    const reading = readCircuit({ elements }, '#');
    const faults = 'faults' in reading ? reading.faults : [];
    expect(faults).toHaveLength(capacities.faults + 1);
    expect(faults[0]?.detail).toBe('Only 500 faults are listed; there are more.');
  });

  // A body of a megabyte. The bound is wide: without the guards these take from many seconds to minutes.
  test.each<[string, () => unknown]>([
    ['elements that are empty', () => ({ elements: Array.from({ length: 100_000 }, () => ({})) })],
    ['unknown fields', () => Object.fromEntries(Array.from({ length: 60_000 }, (_, index) => [`elementz${index}`, 1]))],
    [
      'unknown fields of a quantity',
      () => ({
        elements: [
          { id: 'r', resistance: Object.fromEntries(Array.from({ length: 60_000 }, (_, i) => [`maxx${i}`, 1])) },
        ],
      }),
    ],
    [
      'ids to watch',
      () => ({ elements: [], indicator: { watches: Array.from({ length: 60_000 }, (_, i) => `w${i}`) } }),
    ],
    [
      'ids to move, among many that are like them',
      () => ({
        elements: Array.from({ length: 200 }, (_, index) => ({ id: `contact-number-${index}`, kind: 'contact' })),
        control: {
          sequence: Array.from({ length: 100 }, (_, step) => ({
            close: Array.from({ length: 400 }, (_i, index) => `contactt-numbre-${step}-${index}`),
          })),
        },
      }),
    ],
    [
      'objects where ids are wanted',
      () => ({ indicator: { watches: Array.from({ length: 60_000 }, (_, a) => ({ a })) } }),
    ],
  ])('refuses a body full of %s in little time', (_what, body) => {
    const input = body();
    const start = performance.now();
    expect(readCircuit(input, '#')).toHaveProperty('faults');
    expect(performance.now() - start).toBeLessThan(3000);
  });
});
