import { describe, expect, test } from 'vitest';
import { asManyAsFit } from '../../src/demo/as-many-as-fit.js';
import type { Compared } from '../../src/demo/compare-revisions.js';
import { mergePatch } from '../../src/demo/merge-patch.js';
import { reviseCircuit } from '../../src/demo/revise-circuit.js';
import { revisionLines } from '../../src/demo/revision-lines.js';
import { surprisingRevisions } from '../../src/demo/surprising-revisions.js';

// RFC 7396, Appendix A.
test.each([
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
])('merging into %j the patch %j gives %j', (target, patch, merged) => {
  expect(mergePatch(target, patch)).toEqual(merged);
});

describe('a revised circuit', () => {
  const circuit = { title: 'Sedge', elements: [{ id: 'r', ohms: 1 }, { id: 'f' }] };

  test('has parts changed and taken out by id, the first one untouched', () => {
    expect(reviseCircuit(circuit, { elements: { r: { ohms: 2 }, f: null } })).toEqual({
      title: 'Sedge',
      elements: [{ id: 'r', ohms: 2 }],
    });
    expect(circuit.elements).toHaveLength(2);
  });

  test('may have a part more', () => {
    const { elements } = reviseCircuit(circuit, { elements: { q: { kind: 'fuse' } } }) as { elements: object[] };
    expect(elements).toEqual([...circuit.elements, { id: 'q', kind: 'fuse' }]);
  });

  test('is refused where it names a part that is not there', () => {
    expect(() => reviseCircuit(circuit, { elements: { q: null } })).toThrow('no such part to change: q');
  });
});

describe('the lines on a revision', () => {
  const move = (rule: string) => ({
    rule,
    title: rule,
    weight: 'rule' as const,
    before: { status: 'violated' as const, message: '' },
    after: { status: 'met' as const, message: '' },
  });
  const margin = (name: string, from: unknown, to: unknown) => ({
    name,
    unit: 'Ω',
    fields: [{ field: '/margin', from, to }],
  });
  const comparison = {
    verdict: { before: 'violation-found', after: 'no-violation-found' },
    findings: { resolved: [move('one-rule'), move('another-rule')], new: [], changed: [], unchanged: [] },
    limits: [margin('small', 0.1, 0.2), margin('open', null, 5), margin('large', -0.5, 0.5)],
    parts: [],
    circuit: [],
  } as unknown as Compared['comparison'];

  test('say what is resolved and new, and the margins that moved most, the largest move first', () => {
    expect(revisionLines(comparison, 120)).toEqual([
      'violation found → no violation found. Nothing new. Resolved: one-rule, another-rule',
      'Margins: large -50 % → 50 %, small 10 % → 20 %',
    ]);
  });

  test('leave out what has no room, and say how much', () => {
    expect(asManyAsFit('x: ', ['one', 'two', 'three'], 20)).toBe('x: one, two, three');
    expect(asManyAsFit('x: ', ['one', 'two', 'three'], 17)).toBe('x: one and 2 more');
    expect(asManyAsFit('x: ', [], 3)).toBe('x: none');
  });

  test('a surprise is any rule or verdict that was not calculated', () => {
    const compared = {
      car: 'Sedge',
      first: 'undetermined' as const,
      expected: { verdict: 'no-violation-found' as const, resolved: ['another-rule'], new: ['third-rule'] },
      comparison,
    };
    expect(surprisingRevisions([compared])).toEqual([
      'Sedge, second revision: verdict of the first: expected undetermined, got violation-found',
      'Sedge, second revision: resolved: expected another-rule, got another-rule, one-rule',
      'Sedge, second revision: new: expected third-rule, got nothing',
    ]);
  });
});
