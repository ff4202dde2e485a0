import { expect, it } from 'vitest';
import { elementIds } from '../../../src/verify/batch/element-ids.js';

const at = (k: number, field = '') => `#/circuit/elements/${k}${field}`;

it('names the elements that places are in, by what the item states of them', () => {
  const item = { circuit: { elements: [{ id: 'pack' }, { id: 'fuse' }] } };
  expect(elementIds(item, [at(1, '/nodes/0'), at(0), '#/circuit/link', '#/ruleset', at(2)])).toEqual({
    [at(1, '/nodes/0')]: 'fuse',
    [at(0)]: 'pack',
  });
});

it('names none where the item states no id that could be one', () => {
  const elements = [{ id: 5 }, { id: '' }, null, 'x', { id: 'x'.repeat(100_000) }, {}];
  const places = elements.map((_, k) => at(k));
  expect(elementIds({ circuit: { elements } }, places)).toEqual({});
  for (const item of [undefined, null, 3, [], {}, { circuit: [] }, { circuit: { elements: {} } }]) {
    expect(elementIds(item, places)).toEqual({});
  }
});
