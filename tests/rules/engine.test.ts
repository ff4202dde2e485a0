import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFacts } from '../../src/facts/create-facts.js';
import { judge, verdictOf } from '../../src/rules/engine.js';
import type { Finding } from '../../src/rules/finding.js';
import { rules } from '../../src/rules/rules.js';
import { rulesets } from '../../src/rules/rulesets.js';
import { plainFacts, q } from '../limits/plain-car.js';
import { figure, timeFigure } from './figures.js';
import { loadCases } from './load-cases.js';
import { about, soundCircuit } from './sound-car.js';
import { collegiate2024, fallVoltage, soundFacts, soundFalls, student2020 } from './sound-facts.js';

const tables = await loadCases();
const findingOf = (findings: readonly Finding[], rule: string) => findings.find((finding) => finding.rule === rule)!;
const finding = (status: Finding['status'], weight: Finding['weight']) => ({ status, weight }) as Finding;

describe('judge', () => {
  it('answers one finding for each rule, in the order of the registry, whatever the ruleset', () => {
    for (const ruleset of rulesets) {
      expect(judge(soundFacts(), ruleset).map(({ rule }) => rule)).toEqual(rules.map(({ meta }) => meta.id));
    }
  });

  it('finds nothing wrong with a sound car', () => {
    const findings = judge(soundFacts(), student2020);
    expect(findings.filter(({ status }) => status === 'violated' || status === 'undetermined')).toEqual([]);
    expect(verdictOf(findings)).toBe('no-violation-found');
  });

  it('reports a rule that the ruleset does not have as not applicable', () => {
    const unfused = findingOf(judge(soundFacts(), student2020), 'precharge-unfused');
    expect(unfused).toMatchObject({
      status: 'not-applicable',
      clauses: [],
      message: 'The ruleset student-ev-2020 does not ask for this.',
    });
    expect(findingOf(judge(soundFacts(), collegiate2024), 'precharge-unfused')).toMatchObject({
      status: 'met',
      clauses: [{ document: 'Formula SAE Rules', version: '2024 V1.0', clause: 'EV.5.6.1c', confirmed: 'read' }],
    });
  });

  it('asks for the book to be checked where a row is known from memory only', () => {
    const findings = judge(soundFacts(), student2020);
    expect(findingOf(findings, 'measuring-points').message).toMatch(/stands a short.*check the book\.$/);
    expect(findingOf(findings, 'precharge-setting').message).not.toContain('check the book');
  });

  it('gives a violated finding its remedy and what to look at, with the values filled in', () => {
    const facts = soundFacts({ rise: { steadyRatio: figure(null, { reason: 'no-path' }) } });
    expect(findingOf(judge(facts, student2020), 'precharge-reaches-threshold')).toMatchObject({
      status: 'violated',
      weight: 'rule',
      message:
        'No path charges the link: with the pre-charge relay closed it stays at 0 %, and more than 95 % is required.',
      remedy: 'Bring the pre-charge relay and its resistor in series across the isolation relay that closes last.',
      inspect: expect.stringContaining('pre-charge resistor') as string,
    });
  });

  it('marks consequences by their cause: a discharge contact open at rest', () => {
    const lost = fallVoltage({ timeToLimit: timeFigure(null), timeToLimitOtherClock: timeFigure(null), path: [] });
    const facts = soundFacts({
      circuit: soundCircuit({ 'k-dis': { rest: 'open' } }),
      falls: soundFalls({ shutdown: lost, 'disconnect-open': lost, 'container-removed': lost, 'all-separated': lost }),
    });
    const findings = judge(facts, student2020);
    expect(findingOf(findings, 'discharge-fail-safe')).toMatchObject({ status: 'violated' });
    expect(findingOf(findings, 'discharge-fail-safe').causedBy).toBeUndefined();
    expect(findingOf(findings, 'discharge-time')).toMatchObject({
      status: 'violated',
      causedBy: ['discharge-fail-safe'],
    });
    expect(findingOf(findings, 'discharge-unfused')).toMatchObject({
      status: 'not-applicable',
      causedBy: ['discharge-time'],
    });
    expect(findingOf(findings, 'discharge-stays-with-car')).toMatchObject({ status: 'not-applicable' });
  });

  it('names no cause that is itself met or not in force', () => {
    const facts = soundFacts({ rise: { steadyRatio: figure(0.977, { min: 0.97 }) } });
    const setting = findingOf(judge(facts, student2020), 'precharge-reaches-setting');
    expect(setting.status).toBe('violated');
    expect(setting.causedBy).toBeUndefined();
  });

  it('leaves open what a search without bound finds too near the limit, and says that narrower tolerances decide it', () => {
    const loose = { bound: 'searched', gap: { min: null, max: null } } as const;
    const ending = (max: number) => ({ rise: { timeToThreshold: timeFigure(1, { min: 0.8, max, ...loose }) } });
    const judged = (max: number) =>
      findingOf(judge(soundFacts(ending(max)), student2020), 'precharge-completes-in-time');
    // The sound car's timeout is 5 s; 0.8 to 4.3 s and a quarter of that reach beyond it.
    expect(judged(4.1).status).toBe('met');
    expect(judged(4.3)).toMatchObject({
      status: 'undetermined',
      missing: ['#/circuit/elements'],
      message:
        'This comes too near to its limit to be told: the worst case over the tolerances is searched for, and a search may miss something: 4.3 s was found, with a margin 5.175 s counts, and the limit is 5 s. Narrower tolerances decide it.',
      evidence: { found: 4.3, judged: 5.175, limit: 5, unit: 's' },
    });
    expect(judged(4.1).evidence['judged']).toBeCloseTo(4.1 + 0.25 * (4.1 - 0.8), 12);
  });

  it('shows what was found where a search is bounded, and the bound that counts', () => {
    const bounded = { bound: 'searched', gap: { min: 0, max: 0.5 } } as const;
    const stated = { min: 1, max: 4.8 };
    const figures = { timeToThreshold: timeFigure(2, { min: 1, max: 5.3, stated, ...bounded }) };
    expect(findingOf(judge(soundFacts({ rise: figures }), student2020), 'precharge-completes-in-time')).toMatchObject({
      status: 'undetermined',
      message: expect.stringContaining('4.8 s was found, with a margin 5.3 s counts, and the limit is 5 s') as string,
    });
  });

  it('says that a bound keeps a margin where the figure was searched for, and only there', () => {
    const remedyOf = (tolerance: number) => {
      const fan = { kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], current: q(0.05, tolerance), startsAbove: 300 };
      const parts = { fan: { ...fan, stopsBelow: 100 }, 'pre-resistor': { resistance: q(1000, tolerance) } };
      return findingOf(judge(plainFacts({ parts }), student2020), 'precharge-reaches-threshold').remedy;
    };
    const said = 'The bound keeps a margin for what the search for the worst case may have missed.';
    expect(remedyOf(0.1)).toMatch(new RegExp(`Or reduce pre-resistor .*${said}$`));
    expect(remedyOf(0)).toMatch(/Or reduce pre-resistor/);
    expect(remedyOf(0)).not.toContain(said);
  });

  it('says where to look even where a figure names no field', () => {
    const facts = soundFacts({ rise: { steadyRatio: figure(null, { reason: 'ideal-loop' }) } });
    expect(findingOf(judge(facts, student2020), 'precharge-reaches-threshold')).toMatchObject({
      status: 'undetermined',
      missing: ['#/circuit/elements'],
    });
  });

  it('passes over no resistor whose voltage in the rise cannot be computed', () => {
    const missing = ['#/circuit/elements/3/startsAbove'];
    const facts = soundFacts({ rise: { resistorPeakPower: figure(null, { reason: 'no-state-holds', missing }) } });
    const found = findingOf(judge(facts, student2020), 'voltage-ratings');
    expect(found).toMatchObject({ status: 'undetermined', missing });
  });

  describe('where nothing is said of what feeds a contact', () => {
    const judgedWith = (changes: Readonly<Record<string, object>>) =>
      judge(createFacts(soundCircuit(changes), student2020.conditions), student2020);
    const unstated = { suppliedBy: undefined };

    it('leaves the discharge time open for a discharge contact, which counts only if the shutdown circuit feeds it', () => {
      const findings = judgedWith({ 'k-dis': unstated });
      expect(findingOf(findings, 'discharge-time')).toMatchObject({
        status: 'undetermined',
        missing: ['#/circuit/elements/8/suppliedBy'],
        elements: ['k-dis'],
        causedBy: ['discharge-fail-safe'],
        message:
          'This is met if the shutdown circuit feeds k-dis, and not if something else does: it takes suppliedBy of k-dis to tell.',
      });
    });

    it('leaves it met where another path discharges the link in time', () => {
      const second = { kind: 'resistor', nodes: ['lp', 'tn'], role: 'discharge', resistance: about(4000, 0.05) };
      const findings = judgedWith({ 'k-dis': unstated, 'r-second': second });
      expect(findingOf(findings, 'discharge-time').status).toBe('met');
    });

    it('leaves it open for both isolation relays, which could hold the accumulator on the link, but not for one', () => {
      const both = findingOf(judgedWith({ 'air-neg': unstated, 'air-pos': unstated }), 'discharge-time');
      expect(both).toMatchObject({ status: 'undetermined', causedBy: ['precharge-supply'] });
      expect(both.missing).toEqual(['#/circuit/elements/2/suppliedBy', '#/circuit/elements/3/suppliedBy']);
      expect(findingOf(judgedWith({ 'air-neg': unstated }), 'discharge-time').status).toBe('met');
    });

    it('leaves the rise open for a discharge contact, which loads it unless it is energised with the rest', () => {
      expect(
        findingOf(judgedWith({ 'k-dis': { suppliedBy: 'independent' } }), 'precharge-reaches-threshold').status,
      ).toBe('violated');
      expect(findingOf(judgedWith({ 'k-dis': unstated }), 'precharge-reaches-threshold')).toMatchObject({
        status: 'undetermined',
        missing: ['#/circuit/elements/8/suppliedBy'],
      });
    });

    it('names no other contact, and says nothing of a rule that does not depend on it', () => {
      const findings = judgedWith({ 'k-dis': unstated });
      const open = findings.filter(({ status }) => status === 'undetermined').map(({ rule }) => rule);
      expect(open).not.toContain('precharge-supply');
      expect(open).not.toContain('isolation-both-poles');
      for (const { rule, missing = [] } of findings)
        expect(
          missing.filter((field) => field !== '#/circuit/elements/8/suppliedBy'),
          rule,
        ).toEqual([]);
    });
  });

  it('lists missing fields once each, in the order of the request', () => {
    const circuit = soundCircuit({
      'air-neg': { suppliedBy: undefined },
      'air-pos': { suppliedBy: undefined },
      'k-pre': { suppliedBy: undefined },
    });
    expect(findingOf(judge(soundFacts({ circuit }), student2020), 'precharge-supply').missing).toEqual([
      '#/circuit/elements/2/suppliedBy',
      '#/circuit/elements/3/suppliedBy',
      '#/circuit/elements/4/suppliedBy',
    ]);
  });

  it('keeps to plain JSON for every case of every rule', () => {
    for (const { cases } of tables.values()) {
      for (const { facts } of cases) {
        for (const ruleset of [student2020, collegiate2024]) {
          const findings = judge(facts, ruleset);
          expect(JSON.parse(JSON.stringify(findings))).toEqual(findings);
          for (const { rule, message, status, missing, remedy, evidence } of findings) {
            if (status === 'met' || status === 'violated') {
              expect(Object.keys(evidence), rule).toEqual(
                expect.arrayContaining(['actual', 'limit', 'margin', 'unit', 'path']),
              );
              expect(Number(evidence['margin']) < 0 && status === 'met', rule).toBe(false);
            }
            expect(message).toMatch(/\.$/);
            expect(message).not.toMatch(/NaN|undefined|Infinity|\{\w+\}/);
            if (status === 'undetermined') expect(missing).not.toEqual(undefined);
            if (status === 'violated') expect(remedy).toMatch(/\.$/);
          }
        }
      }
    }
  });
});

describe('verdictOf', () => {
  it('lets a violated rule decide, then an undetermined one', () => {
    expect(verdictOf([finding('met', 'rule')])).toBe('no-violation-found');
    expect(verdictOf([finding('met', 'rule'), finding('undetermined', 'rule')])).toBe('undetermined');
    expect(verdictOf([finding('undetermined', 'rule'), finding('violated', 'rule')])).toBe('violation-found');
  });

  it('never lets advice decide', () => {
    const status = fc.constantFrom<Finding['status']>('met', 'violated', 'undetermined', 'not-applicable');
    fc.assert(
      fc.property(fc.array(status), fc.array(status), (ruled, advised) => {
        const ruling = ruled.map((each) => finding(each, 'rule'));
        return verdictOf([...ruling, ...advised.map((each) => finding(each, 'advice'))]) === verdictOf(ruling);
      }),
      { seed: 20 },
    );
  });
});
