import { describe, expect, it } from 'vitest';
import { judge } from '../../src/rules/engine.js';
import { closest, measuredAgainst } from '../../src/rules/measured-against.js';
import { roundUp } from '../../src/rules/round-up.js';
import { loadCases } from './load-cases.js';
import { student2020 } from './sound-facts.js';

const below = { side: 'below', unit: 's' } as const;
const above = { side: 'above', unit: 'ratio' } as const;

describe('measuredAgainst', () => {
  it.each([
    [{ actual: 4, limit: 5, ...below }, 0.2],
    [{ actual: 6, limit: 5, ...below }, -0.2],
    [{ actual: 0.76, limit: 0.95, ...above }, -0.2],
    [{ actual: 5, limit: 5, ...below }, 0],
    [{ actual: Infinity, limit: 5, ...below }, null],
    [{ actual: 4, limit: Infinity, ...below }, null],
    [{ actual: Infinity, limit: Infinity, ...below }, 0],
  ])('%o has the margin %d', (measured, margin) => {
    const evidence = measuredAgainst(measured);
    if (margin === null) expect(evidence['margin']).toBeNull();
    else expect(evidence['margin']).toBeCloseTo(margin, 12);
    expect(evidence['unit']).toBe(measured.unit);
    expect(JSON.parse(JSON.stringify(evidence))).toEqual(evidence);
  });

  it('takes of several the one with the least margin, one without bound before all', () => {
    const near = { actual: 4.9, limit: 5, ...below };
    const far = { actual: 1, limit: 5, ...below };
    expect(closest([far, near])).toMatchObject({ actual: 4.9 });
    expect(closest([far, near, { actual: Infinity, limit: 5, ...below }])).toMatchObject({ actual: null, limit: 5 });
    expect(closest([])).toEqual({});
  });
});

describe('roundUp', () => {
  it.each([
    [71.11, 3, 71.2],
    [71.1, 3, 71.1],
    [52.6316, 3, 52.7],
    [0.09991, 2, 0.1],
    [1234, 2, 1300],
    [5, 3, 5],
    [0, 3, 0],
    [Infinity, 3, Infinity],
  ])('%d to %d digits is %d', (value, digits, rounded) => {
    expect(roundUp(value, digits)).toBe(rounded);
  });
});

describe('the evidence of findings', () => {
  it('has a negative margin where a number violates and none where it is met', async () => {
    let numbers = 0;
    for (const [rule, { cases }] of await loadCases()) {
      for (const { facts, ruleset = student2020, name } of cases) {
        const finding = judge(facts, ruleset).find((each) => each.rule === rule);
        const { actual, limit, margin, unit } = finding?.evidence ?? {};
        if (unit === undefined) continue;
        expect(
          [actual, limit, margin].every((value) => value === null || typeof value === 'number'),
          rule,
        ).toBe(true);
        if (typeof margin !== 'number') continue;
        numbers += 1;
        // Equality is met or violated as the book says; a rule with several numbers shows the closest.
        if (finding?.status === 'violated') expect(margin, `${rule}: ${name}`).toBeLessThanOrEqual(1e-9);
        if (finding?.status === 'met') expect(margin, `${rule}: ${name}`).toBeGreaterThanOrEqual(-1e-9);
      }
    }
    expect(numbers).toBeGreaterThan(100);
  });
});
