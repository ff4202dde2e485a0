import { describe, expect, it } from 'vitest';
import { ANY_PART } from '../../src/limits/judgement.js';
import { judgeFigure, judgeTime } from '../../src/rules/judge-figure.js';
import { figure, timeFigure } from './figures.js';

const above = { side: 'above', limit: 0.95, strict: true } as const;
const bare = ['#/circuit/elements/1/resistance'];

describe('judgeFigure', () => {
  it.each([
    ['the worst value holds', figure(0.98, { min: 0.96 }), 'met'],
    ['the worst value equals a strict limit', figure(0.98, { min: 0.95 }), 'violated'],
    ['the worst value fails by a stated tolerance', figure(0.98, { min: 0.94 }), 'violated'],
    [
      'the worst value fails by an assumed tolerance only',
      figure(0.98, { min: 0.94, stated: { min: 0.96, max: 1 }, bare }),
      'undetermined',
    ],
    ['even the stated values fail', figure(0.94, { min: 0.92, stated: { min: 0.94, max: 1 }, bare }), 'violated'],
    [
      'it fails with nothing assumed, whatever rounding made of the stated end',
      figure(0.95, { min: 0.95, stated: { min: 0.9500001, max: 1 } }),
      'violated',
    ],
    ['a searched bound holds with a margin', figure(0.98, { min: 0.96, bound: 'searched' }), 'met'],
    ['there is no lowest value', figure(0.98, { min: null }), 'violated'],
    ['something is not stated', figure(null, { reason: 'not-stated', missing: bare }), 'undetermined'],
    ['there is no path', figure(null, { reason: 'no-path' }), 'violated'],
  ] as const)('where %s', (_, value, status) => {
    const judgement = judgeFigure(value, above);
    expect(judgement.status).toBe(status);
    expect(judgement.missing).toEqual(status === 'undetermined' ? bare : []);
  });

  // A searched figure: 0.96 was found, and nothing lies beyond 0.94.
  const searched = (parts: object) => figure(0.98, { bound: 'searched', gap: { min: 0.02, max: 0 }, ...parts });

  it.each([
    ['what was found fails, too', searched({ min: 0.92, stated: { min: 0.94, max: 1 } }), 'violated', []],
    [
      'what was found keeps to it, its outer bound does not',
      searched({ min: 0.94, stated: { min: 0.96, max: 1 } }),
      'undetermined',
      [ANY_PART],
    ],
    [
      'the same with a tolerance assumed',
      searched({ min: 0.94, stated: { min: 0.97, max: 1 }, bare }),
      'undetermined',
      bare,
    ],
    [
      'only the assumed tolerance lets what was found fail',
      searched({ min: 0.92, stated: { min: 0.97, max: 1 }, bare }),
      'undetermined',
      bare,
    ],
    [
      'stated values that were found fail',
      searched({ min: 0.92, stated: { min: 0.94, max: 1 }, bare }),
      'violated',
      [],
    ],
    ['its outer bound keeps to it', searched({ min: 0.96, stated: { min: 0.98, max: 1 } }), 'met', []],
    [
      'it has no outer bound, and keeps to it by more than a quarter of 0.961 to 1',
      searched({ min: 0.961, max: 1, stated: { min: 0.961, max: 1 }, gap: { min: null, max: null } }),
      'met',
      [],
    ],
    [
      'it has no outer bound, and keeps to it by less than a quarter of 0.959 to 1',
      searched({ min: 0.959, max: 1, stated: { min: 0.959, max: 1 }, gap: { min: null, max: null } }),
      'undetermined',
      [ANY_PART],
    ],
    [
      'it has no outer bound on the side that matters, with a tolerance assumed',
      searched({ min: 0.959, max: 1, stated: { min: 0.97, max: 1 }, bare, gap: { min: null, max: 0 } }),
      'undetermined',
      bare,
    ],
    [
      'it has no outer bound on the other side only',
      searched({ min: 0.951, max: 1, stated: { min: 0.96, max: 1 }, gap: { min: 0.009, max: null } }),
      'met',
      [],
    ],
    [
      'it has no outer bound, and what was found fails',
      searched({ min: 0.949, max: 1, stated: { min: 0.949, max: 1 }, gap: { min: null, max: null } }),
      'violated',
      [],
    ],
  ] as const)('where of a search %s', (_, value, status, missing) => {
    expect(judgeFigure(value, above)).toMatchObject({ status, missing });
  });

  it('reports what was found, not what it is judged by', () => {
    const near = searched({ min: 0.959, max: 1, stated: { min: 0.959, max: 1 }, gap: { min: null, max: null } });
    expect(judgeFigure(near, above).worst).toBe(0.959);
  });

  it('takes a limit that is not strict', () => {
    expect(judgeFigure(figure(60), { side: 'below', limit: 60, strict: false }).status).toBe('met');
    expect(judgeFigure(figure(60), { side: 'below', limit: 60, strict: true }).status).toBe('violated');
  });
});

describe('judgeTime', () => {
  it('is undetermined where a search came to an end within the limit that nothing bounds within it', () => {
    const time = timeFigure(3, {
      max: null,
      stated: { min: 2, max: 4 },
      statedReached: 'always',
      bound: 'searched',
      gap: { min: 0, max: null },
    });
    expect(judgeTime(time, 5, true)).toMatchObject({ status: 'undetermined', missing: [ANY_PART] });
    expect(judgeTime({ ...time, stated: { min: 2, max: 6 } }, 5, true).status).toBe('violated');
  });

  it('is undetermined where nothing bounds a search and it ends within a quarter of its spread of the limit', () => {
    const ending = (max: number) =>
      timeFigure(3, { min: 2, max, stated: { min: 2, max }, bound: 'searched', gap: { min: null, max: null } });
    // 2 to 4.4 and a quarter of 2.4 is exactly the limit, which it must stay below.
    expect(judgeTime(ending(4.39), 5, true).status).toBe('met');
    expect(judgeTime(ending(4.41), 5, true)).toMatchObject({
      status: 'undetermined',
      missing: [ANY_PART],
      worst: 4.41,
    });
  });

  it.each([
    ['in time', timeFigure(3, { max: 4.9 }), 'met'],
    ['exactly in time', timeFigure(3, { max: 5 }), 'violated'],
    ['never for some corner', timeFigure(3, { max: null, stated: { min: 3, max: null } }), 'violated'],
    [
      'never for an assumed corner',
      timeFigure(3, { max: null, stated: { min: 3, max: 4 }, statedReached: 'always', bare }),
      'undetermined',
    ],
    ['never', timeFigure(null), 'violated'],
    ['not computable', timeFigure(null, { reason: 'ideal-loop', missing: bare }), 'undetermined'],
  ] as const)('%s', (_, value, status) => {
    expect(judgeTime(value, 5, true).status).toBe(status);
  });

  it('lasts without end where it is not always reached, whatever the largest number found', () => {
    expect(judgeTime(timeFigure(3, { max: 4, reached: 'sometimes' }), 5, true).worst).toBe(Infinity);
  });
});
