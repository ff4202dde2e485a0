import { describe, expect, it } from 'vitest';
import { cars } from './arrangements.js';
import { books } from './books.js';
import { electricalRules } from './brute/electrical.js';
import { ratingRules } from './brute/ratings.js';
import { topologicalRules } from './brute/topological.js';
import type { Car } from './car.js';
import { judged } from './judged.js';
import { type Labelled, labelledSet, mistakes } from './labelled-set.js';
import { randomFrom } from './transformations.js';

/**
 * A second labeller that shares no code with the service: every state of the contacts tried, a dense nodal solution for each,
 * and implicit steps through time. It says of each rule whether it is violated.
 */
const bruteRules = { ...topologicalRules, ...electricalRules, ...ratingRules };

/**
 * Where the two differ for good, and why.
 * - Without any disconnect the brute labeller sees the path that remains; the rule says that none is described, which leaves it
 *   open: a drawing may simply have left it out. Nobody is let through by that, because the verdict stays open too.
 */
const settled = (rule: string, { elements }: Labelled['circuit']) =>
  rule === 'disconnect-breaks-the-path' && elements.every(({ kind }) => kind !== 'disconnect');

describe('the brute labeller and the labels by hand', () => {
  const set = labelledSet(1);

  // The labels are those that labelled.test.ts compares with the rules, so all three agree.
  it.each(Object.entries(bruteRules))('agree on %s', (rule, brute) => {
    const differing = set
      .filter(({ circuit, tolerated }) => !settled(rule, circuit) && !tolerated.includes(rule))
      .filter((labelled) => {
        const verdict = brute(labelled);
        return verdict !== undefined && verdict !== labelled.violated.includes(rule);
      });
    expect(differing.map(({ name }) => name)).toEqual([]);
  });

  it('differ where no disconnect is described, and only so', () => {
    const none = set.filter(({ circuit }) => settled('disconnect-breaks-the-path', circuit));
    expect(none.length).toBeGreaterThan(0);
    for (const labelled of none) {
      expect(topologicalRules['disconnect-breaks-the-path']?.(labelled)).toBe(true);
      expect(labelled.undetermined).toContain('disconnect-breaks-the-path');
    }
  });
});

/** Two mistakes in one car, which nobody has labelled by hand. */
function withTwoMistakes(random: () => number): Labelled | undefined {
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const [car, one, other, book] = [pick(cars), pick(mistakes), pick(mistakes), pick(books)];
  const first = one === other ? undefined : one.change(car);
  if (first === undefined) return undefined;
  const changed: Car = { ...car, circuit: first };
  const circuit = tried(() => other.change(changed));
  if (circuit === undefined) return undefined;
  const name = `${car.name}, ${one.id} + ${other.id}, ${book.id}`;
  // The names of the sound car stay true of it: which relays it has, and which close last.
  return { name, car: changed, book, circuit, violated: [], undetermined: [], tolerated: [] };
}

/** The second mistake may need a part that the first has taken away. */
function tried<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch {
    return undefined;
  }
}

describe('the brute labeller and the rules', () => {
  it('agree on cars with two mistakes at once', () => {
    const random = randomFrom(2_026);
    const differing: string[] = [];
    let compared = 0;
    for (let circuits = 0; circuits < 40; ) {
      const labelled = withTwoMistakes(random);
      // A part gone may leave a name that nothing has: such a circuit cannot be posted.
      const findings = labelled && tried(() => judged(labelled.circuit, labelled.book.id));
      if (labelled === undefined || findings === undefined) continue;
      circuits += 1;
      for (const [rule, brute] of Object.entries(bruteRules)) {
        const verdict = brute(labelled);
        if (verdict === undefined || settled(rule, labelled.circuit)) continue;
        compared += 1;
        const { status, message } = findings.find((finding) => finding.rule === rule)!;
        if (verdict !== (status === 'violated')) differing.push(`${labelled.name}: ${rule}, ${message}`);
      }
    }
    expect(differing).toEqual([]);
    expect(compared).toBeGreaterThan(700);
  }, 60_000);
});
