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
    ['a searched bound holds', figure(0.98, { min: 0.96, bound: 'searched' }), 'met'],
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
      'it has no outer bound',
      searched({ min: 0.96, stated: { min: 0.96, max: 1 }, gap: { min: null, max: null } }),
      'met',
      [],
    ],
  ] as const)('where of a search %s', (_, value, status, missing) => {
    expect(judgeFigure(value, above)).toMatchObject({ status, missing });
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
