import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { compareRulesets } from '../../src/rules/compare-rulesets.js';
import { overridableParameters, OverridesSchema } from '../../src/rules/overridable-parameters.js';
import { rules } from '../../src/rules/rules.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import { RulesetDataSchema } from '../../src/rules/ruleset-schema.js';
import { rulesets } from '../../src/rules/rulesets.js';
import { studentEv2020 } from '../../src/rules/rulesets/student-ev-2020.js';
import { withChanges } from '../../src/rules/rulesets/with-changes.js';
import { withOverrides } from '../../src/rules/with-overrides.js';

const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true });
const known = rules.map(({ meta }) => meta.id);

describe('the rulesets', () => {
  it('stand in order of id', () => {
    expect(rulesets.map(({ id }) => id)).toEqual([
      'collegiate-ev-2014',
      'collegiate-ev-2024',
      'collegiate-ev-2026',
      'student-ev-2020',
      'student-ev-2026',
    ]);
    expect(rulesetById('student-ev-2020')).toBe(rulesets[3]);
    expect(rulesetById('student-ev-1999')).toBeUndefined();
  });

  it.each(rulesets)('$id fits its schema', ({ conditions: _, ...data }) => {
    const valid = ajv.compile(RulesetDataSchema);
    expect(valid(data), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...data, parameters: { ...data.parameters, thresold: data.parameters.threshold } })).toBe(false);
  });

  it.each(rulesets)('$id names rules that exist, each once', ({ rules: rows }) => {
    const ids = rows.map(({ rule }) => rule);
    expect(ids.filter((id) => !known.includes(id))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each(rulesets)(
    '$id cites a clause for what it has from a book, and none for what is ours',
    ({ rules: rows, parameters }) => {
      for (const { rule, weight, clauses, confirmed } of rows) {
        if (weight === 'rule') expect(clauses, rule).not.toEqual([]);
        if (confirmed === 'ours') expect({ weight, clauses }, rule).toEqual({ weight: 'advice', clauses: [] });
      }
      for (const [name, { clause, confirmed, note }] of Object.entries(parameters)) {
        if (confirmed === 'read') expect(clause, name).toBeDefined();
        if (confirmed === 'ours')
          expect({ clause, note }, name).toEqual({ clause: undefined, note: expect.stringMatching(/\.$/) as string });
      }
    },
  );

  // The table of facts from the published rulebooks: Formula Student EV 5.7.1, 6.1.5, 4.9.1; Formula SAE EV.5.6.1a, EV.7.2.2c, T.9.1.2, EV.5.6.3d; 2014 EV4.12.1, EV5.1.3.
  it.each([
    ['student-ev-2020', 0.95, 60, true, 5, true, null],
    ['student-ev-2026', 0.95, 60, true, 5, true, null],
    ['collegiate-ev-2024', 0.9, 60, false, 5, false, 15],
    ['collegiate-ev-2026', 0.9, 60, false, 5, false, 15],
    ['collegiate-ev-2014', 0.9, 40, true, 5, true, 15],
  ])('%s holds the book’s figures', (id, threshold, volts, voltsStrict, seconds, secondsStrict, ratingTime) => {
    expect(rulesetById(id)?.conditions).toMatchObject({
      threshold,
      dischargeVoltage: volts,
      dischargeVoltageStrict: voltsStrict,
      dischargeTime: seconds,
      dischargeTimeStrict: secondsStrict,
      dischargeRatingTime: ratingTime,
    });
  });

  // Of the 2020 book EV 5.6, 5.7, 4.10 and 1.2.1 were read in a copy without a year, EV 4.9 and 6.1.5 in the 2026 generation's.
  it('student-ev-2020 says row by row what was read, and in which copy', () => {
    const { parameters, rules: rows } = rulesetById('student-ev-2020')!;
    const inNewer = /^EV (4\.9|6\.1\.5)/;
    const read = /^EV (4\.9|4\.10\.|6\.1\.5|5\.6|5\.7|1\.2\.1)/;
    for (const [name, { clause, confirmed, note = '' }] of Object.entries(parameters)) {
      if (clause === undefined) continue;
      expect(confirmed, name).toBe(read.test(clause) ? 'read' : 'memory');
      expect(note.includes('Read in a copy of the 2026 generation.'), name).toBe(inNewer.test(clause));
    }
    for (const { rule, clauses, confirmed } of rows) {
      if (clauses.length > 0) expect(confirmed, rule).toBe(clauses.every((one) => read.test(one)) ? 'read' : 'memory');
    }
  });

  it('keep what only some books prohibit to those', () => {
    const having = (rule: string) =>
      rulesets.filter(({ rules: rows }) => rows.some((row) => row.rule === rule)).map(({ id }) => id);
    expect(having('no-ptc')).toEqual(['collegiate-ev-2024']);
    expect(having('precharge-unfused')).toEqual(['collegiate-ev-2024']);
    expect(having('indicator-sees-contacts')).toEqual(['student-ev-2020', 'student-ev-2026']);
  });
});

describe('withChanges', () => {
  const earlier = studentEv2020;
  const head = {
    id: 'invented-ev-2030',
    revision: '1',
    source: { document: 'Invented', version: '2030' },
    note: 'None.',
  };

  it('keeps every row and its place but for what it names', () => {
    const later = withChanges(earlier, {
      ...head,
      parameters: {
        threshold: { value: 0.9, unit: 'ratio', clause: 'X 1', confirmed: 'read' },
        repeats: { note: undefined },
      },
      rules: { 'main-fuse': null, 'precharge-order': { confirmed: 'memory' } },
    });
    const { note: _, ...repeats } = earlier.parameters.repeats;
    expect(later).toEqual({
      ...head,
      parameters: {
        ...earlier.parameters,
        threshold: { value: 0.9, unit: 'ratio', clause: 'X 1', confirmed: 'read' },
        repeats,
      },
      rules: earlier.rules
        .filter(({ rule }) => rule !== 'main-fuse')
        .map((row) => (row.rule === 'precharge-order' ? { ...row, confirmed: 'memory' } : row)),
    });
    expect(Object.keys(later.parameters)).toEqual(Object.keys(earlier.parameters));
  });

  it('refuses to change a rule that the earlier edition does not have', () => {
    expect(() => withChanges(earlier, { ...head, parameters: {}, rules: { 'no-ptc': null } })).toThrow('no-ptc');
  });
});

describe('withOverrides', () => {
  const ruleset = rulesetById('student-ev-2020')!;

  it('changes nothing without an event', () => {
    expect(withOverrides(ruleset)).toEqual({ ruleset, overrides: [] });
  });

  it('puts an organiser’s values into rows and conditions and tells what they replaced', () => {
    const before = JSON.stringify(ruleset);
    const { ruleset: changed, overrides } = withOverrides(ruleset, {
      meterResistance: 47_000,
      parameters: { dischargeVoltage: 40, threshold: 0.9, dischargeRatingTime: null },
    });
    expect(overrides).toEqual([
      { parameter: 'threshold', from: 0.95, to: 0.9 },
      { parameter: 'dischargeVoltage', from: 60, to: 40 },
      { parameter: 'dischargeRatingTime', from: null, to: null },
    ]);
    expect(changed.conditions).toEqual({
      ...ruleset.conditions,
      threshold: 0.9,
      dischargeVoltage: 40,
      eventMeterResistance: 47_000,
    });
    expect(changed.parameters.threshold).toEqual({
      value: 0.9,
      unit: 'ratio',
      clause: 'EV 5.7.1',
      confirmed: 'read',
      overridden: true,
    });
    expect(changed.parameters.dischargeTime).toBe(ruleset.parameters.dischargeTime);
    expect(JSON.stringify(ruleset)).toBe(before);
  });

  it('offers parameters that each ruleset has, and takes each of a ruleset’s own values', () => {
    const valid = ajv.compile(OverridesSchema);
    for (const { parameters } of rulesets) {
      for (const { name, schema } of overridableParameters) {
        expect(valid({ [name]: parameters[name].value }), name).toBe(true);
        expect(schema).toBeTypeOf('object');
      }
    }
  });

  it.each([
    { threshold: 1 },
    { threshold: 95 },
    { dischargeTime: 0 },
    { dischargeClock: 'noon' },
    { separationStates: [] },
    { levle: 0.9 },
    { repeats: { count: 3 } },
  ])('has bounds that refuse %j', (parameters) => {
    expect(ajv.validate(OverridesSchema, parameters)).toBe(false);
  });
});

describe('compareRulesets', () => {
  it('finds no difference between a ruleset and itself', () => {
    for (const ruleset of rulesets) {
      expect(compareRulesets(ruleset, ruleset)).toEqual({
        from: ruleset.id,
        to: ruleset.id,
        parameters: [],
        rules: [],
      });
    }
  });

  it('tells what changed between two editions of one book', () => {
    const { parameters, rules: rows } = compareRulesets(
      rulesetById('collegiate-ev-2024')!,
      rulesetById('collegiate-ev-2026')!,
    );
    expect(parameters.map(({ parameter, differs }) => [parameter, differs])).toEqual([
      ['prechargeDecision', ['value', 'clause']],
    ]);
    expect(rows.map(({ rule, differs }) => [rule, differs])).toEqual([
      ['indicator-sees-voltage', ['presence']],
      ['no-ptc', ['presence']],
      ['precharge-compares-voltages', ['clauses']],
      ['precharge-relay-type', ['clauses']],
      ['precharge-unfused', ['presence']],
    ]);
  });

  it('is the same the other way round, with from and to changed', () => {
    const [a, b] = [rulesets[0]!, rulesets[3]!];
    const there = compareRulesets(a, b);
    const back = compareRulesets(b, a);
    const turned = <T extends { from: unknown; to: unknown }>({ from, to, ...rest }: T) => ({
      ...rest,
      from: to,
      to: from,
    });
    expect(back.rules.map(turned)).toEqual(there.rules);
    expect(back.parameters.map(turned)).toEqual(there.parameters);
  });
});
