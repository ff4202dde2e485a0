import { expect, it } from 'vitest';
import { LastFew } from '../../src/circuit/last-few.js';

it('makes a thing once while it is among the last few, and again once it is not', () => {
  const few = new LastFew<object, number>(2);
  const [a, b, c] = [{}, {}, {}];
  let made = 0;
  const make = () => (made += 1);
  expect([few.get(a, make), few.get(b, make), few.get(a, make)]).toEqual([1, 2, 1]);
  // A third takes the place of the oldest.
  expect([few.get(c, make), few.get(b, make), few.get(a, make)]).toEqual([3, 2, 4]);
});
