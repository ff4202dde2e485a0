import { describe, expect, it } from 'vitest';
import type { Facts } from '../../src/facts/facts.js';
import { computeLimits } from '../../src/limits/index.js';
import { exampleCases } from './example-cases.js';

/** The same facts, with a count of the circuits that are computed for another value of a part. */
function counted(facts: Facts): {
  readonly facts: Facts;
  readonly count: () => number;
  readonly ends: () => Set<unknown>;
} {
  let calls = 0;
  const ends = new Set<unknown>();
  const vary: Facts['vary'] = (id, value, only) => {
    calls += 1;
    ends.add(only);
    return facts.vary(id, value, only);
  };
  return { facts: Object.create(facts, { vary: { value: vary } }) as Facts, count: () => calls, ends: () => ends };
}

describe('the work for all limits of a car', () => {
  it.each(exampleCases.map((each) => [each.id, each.facts] as const))(
    '%s takes a few dozen circuits, each at the one end that is asked for',
    (_, facts) => {
      const { facts: watched, count, ends } = counted(facts);
      const { limits } = computeLimits(watched);
      expect(limits.length).toBeGreaterThan(8);
      expect(count()).toBeGreaterThan(10);
      expect(count()).toBeLessThanOrEqual(60);
      expect(ends().has(undefined)).toBe(false);
    },
  );

  it('is not done twice for two levels of one figure', () => {
    const rise = exampleCases.find(({ id }) => id === 'sound-rear-pack');
    if (rise === undefined) throw new Error('the example is gone');
    const asked: string[] = [];
    const vary: Facts['vary'] = (id, value, only) => {
      asked.push(`${id} ${JSON.stringify(value)} ${only ?? ''}`);
      return rise.facts.vary(id, value, only);
    };
    computeLimits(Object.create(rise.facts, { vary: { value: vary } }) as Facts);
    expect(new Set(asked).size).toBe(asked.length);
  });
});
