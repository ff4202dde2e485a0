import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { childPointer, comparePointers, pointerKeys } from '../../src/circuit/pointer.js';
import './seed.js';

describe('childPointer', () => {
  // RFC 6901 section 6: the keys of its example document and their pointers as URI fragments.
  test.each([
    ['foo', '#/foo'],
    ['', '#/'],
    ['a/b', '#/a~1b'],
    ['c%d', '#/c%25d'],
    ['e^f', '#/e%5Ef'],
    ['g|h', '#/g%7Ch'],
    ['i\\j', '#/i%5Cj'],
    ['k"l', '#/k%22l'],
    [' ', '#/%20'],
    ['m~n', '#/m~0n'],
  ])('%j is %s', (key, pointer) => {
    expect(childPointer('#', key)).toBe(pointer);
  });

  test('escapes a number sign and letters beyond ASCII', () => {
    expect(childPointer('#/a', 'x#y', 3, 'Ω')).toBe('#/a/x%23y/3/%CE%A9');
  });

  test('does not throw for half a character', () => {
    expect(childPointer('#', '\uD800')).toBe('#/%EF%BF%BD');
  });

  test('can be taken apart again into the keys it was made of', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' })), (keys) => {
        expect(pointerKeys(childPointer('#', ...keys))).toEqual(keys);
      }),
    );
  });
});

describe('comparePointers', () => {
  test('orders list positions by number and a place before what lies in it', () => {
    const ordered = ['#', '#/a', '#/a/0', '#/a/2', '#/a/2/b', '#/a/10', '#/a/10/b', '#/a/x', '#/b'];
    fc.assert(
      fc.property(fc.shuffledSubarray(ordered, { minLength: ordered.length }), (shuffled) => {
        expect([...shuffled].sort(comparePointers)).toEqual(ordered);
      }),
    );
  });
});
