import { expect, it } from 'vitest';
import type { Facts } from '../../src/facts/facts.js';
import { computeLimits } from '../../src/limits/index.js';
import { exampleCases } from './example-cases.js';

const { facts } = exampleCases.find(({ id }) => id === 'sound-rear-pack')!;

/** The same facts, of which every look at the counter finds as much work done as a bound may cost. */
function costlyFacts(): Facts {
  let solved = 0;
  return Object.create(facts, {
    statesSolved: {
      get: () => {
        solved += 200_000;
        return solved;
      },
    },
  }) as Facts;
}

it('a bound whose search costs too much is left out and says so; what is judged without it stands', () => {
  const { limits, windows } = computeLimits(facts);
  const costly = computeLimits(costlyFacts());
  const left = costly.limits.filter(({ outcome }) => outcome === 'too-costly');
  expect(left.length).toBeGreaterThan(3);
  for (const record of left) {
    const whole = limits.find(({ name, element }) => name === record.name && element === record.element);
    expect(record.satisfied, record.name).toBe(whole?.satisfied);
    expect(record).toMatchObject({ value: null, nominal: null, binding: false });
    expect(record.note).toContain('more work than one request may ask for');
  }
  const { element } = left.find(({ name }) => name === 'precharge-resistance-max-time')!;
  const window = costly.windows.find((each) => each.element === element)!;
  expect(window.explanation).toContain('Left out: precharge-resistance-max-time, whose bound would be more work');
  expect(window.preferred).toEqual([]);
  expect(windows.find((each) => each.element === element)?.explanation ?? '').not.toContain('Left out');
});
