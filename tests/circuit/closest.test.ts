import { expect, test } from 'vitest';
import { closest } from '../../src/circuit/index.js';

const fields = ['resistance', 'role', 'technology', 'ratings', 'zone'];

test.each([
  ['resistence', 'resistance'],
  ['Resistance', 'resistance'],
  ['resitsance', 'resistance'],
  ['resistanc', 'resistance'],
  ['roles', 'role'],
  ['ratngs', 'ratings'],
  ['zoen', 'zone'],
])('%s is close to %s', (word, field) => {
  expect(closest(word, fields)).toBe(field);
});

test.each(['colour', 'x', '', 'res', 'r'.repeat(500)])('%j is close to none', (word) => {
  expect(closest(word, fields)).toBeUndefined();
});

test('of two that are equally close the first in order wins, whatever their order in the list', () => {
  expect(closest('air-x', ['air-b', 'air-a'])).toBe('air-a');
  expect(closest('air-x', ['air-a', 'air-b'])).toBe('air-a');
});
