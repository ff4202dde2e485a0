import { describe, expect, it } from 'vitest';
import type { Figure, TimeFigure } from '../../src/facts/figure.js';
import { ANY_PART, judgeAbove, judgeAtMost, judgedEnds, judgeTime } from '../../src/limits/judgement.js';
import { judgeFigure, judgeTime as ruleOnTime } from '../../src/rules/judge-figure.js';

const figure = (further: Partial<Figure>): Figure => ({
  nominal: 5,
  min: 4,
  max: 6,
  stated: { min: 4, max: 6 },
  bare: [],
  bound: 'proved',
  at: { min: {}, max: {} },
  ...further,
});
const bare = ['#/circuit/elements/1/resistance'];

/** Proved; searched, with what was found a tenth inside the ends; the same with tolerances assumed, which reach farther. */
const cases: ReadonlyArray<readonly [string, Figure]> = [
  ['proved', figure({})],
  ['searched, nothing known of what was missed', figure({ bound: 'searched', gap: { min: null, max: null } })],
  ['searched', figure({ bound: 'searched', gap: { min: 0.1, max: 0.1 }, stated: { min: 4.1, max: 5.9 } })],
  ['assumed', figure({ bare, stated: { min: 4.5, max: 5.5 } })],
  [
    'assumed and searched',
    figure({ bare, bound: 'searched', gap: { min: 0.1, max: 0.1 }, stated: { min: 4.5, max: 5.5 } }),
  ],
  ['without a number', figure({ nominal: null, min: null, max: null, reason: 'not-stated', missing: bare })],
];
const levels = [3.4, 3.6, 3.9, 4, 4.05, 4.1, 4.3, 4.6, 5, 5.4, 5.7, 5.9, 5.95, 6, 6.1, 6.4, 6.6];

const said = { met: true, violated: false, undetermined: null } as const;

describe('limits and rules judge a figure alike', () => {
  it.each(cases)('%s', (_, one) => {
    for (const level of levels) {
      const above = judgeFigure(one, { side: 'above', limit: level, strict: true });
      const below = judgeFigure(one, { side: 'below', limit: level, strict: false });
      expect(judgeAbove(one, level).satisfied).toBe(said[above.status]);
      expect(judgeAbove(one, level).missing).toEqual(above.missing);
      expect(judgeAtMost(one, level).satisfied).toBe(said[below.status]);
      expect(judgeAtMost(one, level).missing).toEqual(below.missing);
      for (const strict of [true, false]) {
        for (const reached of ['always', 'sometimes'] as const) {
          const time: TimeFigure = { ...one, reached, statedReached: 'always' };
          expect(judgeTime(time, level, strict).satisfied).toBe(said[ruleOnTime(time, level, strict).status]);
        }
      }
    }
  });

  it('give a search that nothing bounds a quarter of its spread, and one that is bounded nothing', () => {
    const loose = figure({ bound: 'searched', gap: { min: null, max: null } });
    expect(judgedEnds(loose)).toEqual({ min: 3.5, max: 6.5 });
    // 4.1 to 6 was found.
    expect(judgedEnds(figure({ bound: 'searched', gap: { min: 0.1, max: null } }))).toEqual({ min: 4, max: 6.475 });
    expect(judgedEnds(figure({}))).toEqual({ min: 4, max: 6 });
    expect(judgedEnds(figure({ max: null, bound: 'searched', gap: { min: null, max: null } }))).toEqual({
      min: 4,
      max: null,
    });
  });

  it('say where to look for what only a narrower tolerance settles', () => {
    const [, , [, searched] = ['', figure({})]] = cases;
    expect(judgeAtMost(searched, 5.95)).toMatchObject({ satisfied: null, missing: [ANY_PART] });
  });
});
