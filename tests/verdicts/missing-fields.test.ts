import { describe, expect, it } from 'vitest';
import { readCircuit } from '../../src/circuit/read-circuit.js';
import type { Finding } from '../../src/rules/finding.js';
import { judged } from './judged.js';
import { type Labelled, labelledSet } from './labelled-set.js';
import { fieldsOf, type Path, withoutField } from './optional-fields.js';
import { randomFrom, shuffled } from './transformations.js';

interface Removal {
  readonly labelled: Labelled;
  readonly path: Path;
  /** `elements/r-pre/ratings/power` */
  readonly field: string;
}

/**
 * Fields without which a finding may rightly become met, because the contract says what holds where they are not stated. All
 * removals from the set near its mistakes have been tried (some 6900); these are the only ones left.
 * - `control/sequence`: where it is not stated the order is the default one, which the answer says; its steps are literal, so that
 *   without one of its lists a step is another step, not one that says less.
 * - `openResistance` of an electromechanical contact: an open gap conducts nothing, and a snubber that nobody mentions cannot be seen;
 *   of a solid-state contact, whose leakage is never nothing, the rule stays open.
 * - `role`: not stated, a part goes by what it does, and a normally open contact in a pole's way is an isolation relay.
 * - `minimumRestartInterval`: not stated, starts come back to back as often as the ruleset's repeats, three instead of one after
 *   the other for ever.
 * - `ambientMax` of a resistor: without air of its own that of the car (`ambient`) is around it.
 */
const RIGHTLY: ReadonlyArray<readonly [RegExp, RegExp]> = [
  [/^control\/sequence/u, /^precharge-order$|^relay-ratings$/u],
  [/\/openResistance$/u, /^no-unswitched-voltage-outside$/u],
  [/\/role$/u, /^isolation-both-poles$/u],
  [/^control(\/precharge(\/minimumRestartInterval)?)?$/u, /^restart-heat$/u],
  [/\/ambientMax$/u, /^discharge-surroundings$/u],
];

/** Words and switches that decide which way a rule goes: each is taken away wherever a mistake is about it. */
const DECIDING = /\/(?:suppliedBy|construction|method|delay|threshold|comparisonError)$/u;

const random = randomFrom(17);
const set = labelledSet(1);
const sound = set.filter(({ name }) => name.includes(', sound,'));
const faulty = set.filter(({ violated, undetermined }) => violated.length + undetermined.length > 0);

function removals(labelled: Labelled, wanted: (path: Path) => boolean = () => true): readonly Removal[] {
  const { circuit } = labelled;
  return fieldsOf(circuit)
    .filter(wanted)
    .filter((path) => 'circuit' in readCircuit(withoutField(circuit, path), '#/circuit'))
    .map((path) => {
      const [first, place, ...rest] = path;
      const field =
        first === 'elements' ? ['elements', circuit.elements[place as number]!.id, ...rest].join('/') : path.join('/');
      return { labelled, path, field };
    });
}

/** Fields of the elements that a mistake has changed, and all that is no element: there a removal could hide it. */
function nearTheMistake(labelled: Labelled): readonly Removal[] {
  const before = new Set(labelled.car.circuit.elements.map((part) => JSON.stringify(part)));
  const changed = labelled.circuit.elements.map((part) => !before.has(JSON.stringify(part)));
  return removals(labelled, ([first, place]) => first !== 'elements' || changed[place as number] === true);
}

/** What stands at a path; elements by their place, which a mistake that adds or removes one may shift. */
function at(circuit: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, key) => (value as Record<string | number, unknown> | undefined)?.[key], circuit);
}

const memo = new Map<Labelled, ReadonlyMap<string, Finding['status']>>();

function statuses(labelled: Labelled, path?: Path): ReadonlyMap<string, Finding['status']> {
  const circuit = path === undefined ? labelled.circuit : withoutField(labelled.circuit, path);
  return new Map(judged(circuit, labelled.book.id).map(({ rule, status }) => [rule, status]));
}

/** Rules that a removal has made met. */
function becameMet({ labelled, path }: Removal, from: ReadonlyArray<Finding['status']>): string[] {
  const before = memo.get(labelled) ?? statuses(labelled);
  memo.set(labelled, before);
  const after = statuses(labelled, path);
  return [...before]
    .filter(([rule, status]) => from.includes(status) && after.get(rule) === 'met')
    .map(([rule]) => rule);
}

const drawn = (from: readonly Removal[], count: number) => shuffled(from, random).slice(0, count);
const told = ({ labelled, field }: Removal, rules: readonly string[]) =>
  rules.map((rule) => `${labelled.name}: ${rule} is met without ${field}`);

describe('a field taken away', () => {
  it('never turns a violation, or what was open, into a rule that is met', () => {
    const chosen = shuffled(faulty, random).slice(0, 60);
    const tried = chosen.flatMap((labelled) => drawn(nearTheMistake(labelled), 3));
    const wrong = tried.flatMap((removal) => {
      const rules = becameMet(removal, ['violated', 'undetermined']);
      const unexplained = rules.filter(
        (rule) => !RIGHTLY.some(([field, of]) => field.test(removal.field) && of.test(rule)),
      );
      return told(removal, unexplained);
    });
    expect(wrong).toEqual([]);
    expect(tried.length).toBeGreaterThan(120);
  }, 120_000);

  it('never hides a mistake that it is about', () => {
    const about = faulty.flatMap((labelled) =>
      nearTheMistake(labelled).filter(
        ({ field, path }) =>
          DECIDING.test(field) &&
          JSON.stringify(at(labelled.circuit, path)) !== JSON.stringify(at(labelled.car.circuit, path)),
      ),
    );
    const wrong = about.flatMap((removal) => told(removal, becameMet(removal, ['violated', 'undetermined'])));
    expect(wrong).toEqual([]);
    expect(new Set(about.map(({ path }) => path.at(-1)))).toEqual(
      new Set(['suppliedBy', 'construction', 'method', 'delay', 'threshold', 'comparisonError']),
    );
  }, 120_000);

  it('never improves anything about a sound car', () => {
    const tried = drawn(
      sound.flatMap((labelled) => drawn(removals(labelled), 8)),
      150,
    );
    const wrong = tried.flatMap((removal) =>
      told(removal, becameMet(removal, ['violated', 'undetermined', 'not-applicable'])),
    );
    expect(wrong).toEqual([]);
    expect(tried.length).toBe(150);
  }, 120_000);

  it('that holds a value leaves something open', () => {
    // One field each, and the rule that then cannot be told any more.
    const fields: ReadonlyArray<readonly [string, string]> = [
      ['control/precharge/comparisonError', 'precharge-setting'],
      ['control/precharge/timeout', 'precharge-completes-in-time'],
      ['elements/k-pre/construction', 'precharge-relay-type'],
      ['elements/k-pre/suppliedBy', 'precharge-supply'],
      ['elements/k-pre/construction', 'no-unswitched-voltage-outside'],
      ['elements/k-dis/suppliedBy', 'discharge-time'],
      ['elements/k-dis/suppliedBy', 'precharge-reaches-threshold'],
      ['control/precharge/method', 'precharge-order'],
      ['control/precharge/comparisonError', 'relay-ratings'],
      ['elements/main-fuse/breakingCurrent', 'fuse-breaking-current'],
      ['elements/pack/resistance', 'fuse-breaking-current'],
      ['elements/main-fuse/ratedCurrent', 'main-fuse'],
      ['elements/main-fuse/ratedCurrent', 'relay-ratings'],
      ['elements/r-dis/mounting', 'discharge-rating'],
      ['elements/r-dis/surroundings/limitTemperature', 'discharge-surroundings'],
      ['elements/hvd/ratedVoltage', 'voltage-ratings'],
      ['indicator/watches', 'indicator-sees-contacts'],
      ['measuringPoints', 'measuring-points'],
    ];
    const labelled = sound.find(({ name }) => name.startsWith('plain 400 V') && name.endsWith('student-ev-2020'))!;
    const all = removals(labelled);
    for (const [field, rule] of fields) {
      const { path } = all.find((removal) => removal.field === field)!;
      expect([field, rule, statuses(labelled, path).get(rule)]).toEqual([field, rule, 'undetermined']);
    }
  });
});
