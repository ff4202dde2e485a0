import { describe, expect, it } from 'vitest';
import { computeLimits, limits } from '../../src/limits/index.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import { rules } from '../../src/rules/rules.js';
import { type ExampleCase, exampleCases } from './example-cases.js';
import { type PlainCar, plainFacts, q } from './plain-car.js';
import { ruleConditions } from './rule-conditions.js';

/** Relative distance from the nominal at which the verdict is taken: far above the 1e-10 of the bound. */
const BESIDE = 1e-6;

const converter = {
  kind: 'load',
  zone: 'vehicle',
  nodes: ['lp', 'ln'],
  power: q(5, 0.1),
  startsAbove: 400,
  stopsBelow: 300,
};
/** What no example has: a constant power that draws while the link charges, and tolerances that are not stated. */
const ownCars: Readonly<Record<string, PlainCar>> = {
  'a converter that draws in the rise': { parts: { converter } },
  'tolerances not stated': {
    parts: {
      pack: { voltage: { min: 400, nominal: 550, max: 600 }, resistance: 0.2 },
      'pre-resistor': { resistance: 1000 },
      'rise-load': null,
      meter: { kind: 'meter', zone: 'vehicle', nodes: ['lp', 'ln'], resistance: 47_000 },
      link: { capacitance: 500e-6, esr: 0.01 },
      'dis-resistor': { resistance: 2200 },
      'air-pos': { releaseTime: undefined },
    },
  },
};

const cases: readonly ExampleCase[] = [
  ...exampleCases,
  ...Object.entries(ownCars).map(([id, car]) => {
    const ruleset = rulesetById('student-ev-2026');
    if (ruleset === undefined) throw new Error('the ruleset is gone');
    return { id, facts: plainFacts(car), ruleset };
  }),
];

const pairs = cases.flatMap(({ id, facts, ruleset }) =>
  computeLimits(facts)
    .limits.filter(({ nominal, missing = [] }) => nominal !== null && missing.length === 0)
    .map((record) => ({
      id,
      facts,
      ruleset,
      record,
      title: `${id}: ${record.name} on ${record.element ?? 'the setting'}`,
    })),
);

describe('the verdict flips at the nominal', () => {
  it.each(pairs.map((pair) => [pair.title, pair] as const))('%s', (_, { facts, ruleset, record }) => {
    const condition = ruleConditions[record.name];
    if (condition === undefined || record.nominal === null) throw new Error(`no condition for ${record.name}`);
    const inside = record.nominal * (record.bound === 'max' ? 1 - BESIDE : 1 + BESIDE);
    const outside = record.nominal * (record.bound === 'max' ? 1 + BESIDE : 1 - BESIDE);
    expect(condition.met(condition.moved(facts, record, inside), ruleset, record)).toBe(true);
    expect(condition.met(condition.moved(facts, record, outside), ruleset, record)).toBe(false);
  });

  it('is tried for every limit', () => {
    const tried = new Set(pairs.map(({ record }) => record.name));
    expect(limits.map(({ meta }) => meta.name).filter((name) => !tried.has(name))).toEqual([]);
  });
});

/** Rules that ask for nothing but what their limits bound. */
const wholeRules = new Set([
  'precharge-reaches-threshold',
  'precharge-reaches-setting',
  'precharge-completes-in-time',
  'precharge-setting',
  'precharge-resistor-rating',
  'discharge-time',
  'discharge-rating',
]);

describe('satisfied is what the rule says', () => {
  it.each(cases.map((each) => [each.id, each] as const))('%s', (_, { facts, ruleset }) => {
    const served = new Set(limits.map(({ meta }) => meta.rule));
    const findings = new Map(
      rules
        .filter(({ meta }) => served.has(meta.id) && ruleset.rules.some(({ rule }) => rule === meta.id))
        .map(({ meta, check }) => [meta.id, check(facts, ruleset, () => []).status]),
    );
    for (const { name, rule, satisfied } of computeLimits(facts).limits) {
      const status = findings.get(rule);
      if (status === undefined || status === 'not-applicable') continue;
      const context = `${name} for ${rule}`;
      if (status === 'met') expect([context, satisfied]).toEqual([context, true]);
      if (satisfied === false) expect([context, status]).toEqual([context, 'violated']);
      if (wholeRules.has(rule) && satisfied === true) expect([context, status]).toEqual([context, 'met']);
    }
  });

  it('present is on the right side of the nominal exactly where it is satisfied', () => {
    for (const { record } of pairs) {
      const margin = record.margin ?? 0;
      // A value that is the bound itself to the last bit or two may be on either side.
      if (Math.abs(margin) > 1e-12) expect(margin > 0).toBe(record.satisfied);
    }
  });
});
