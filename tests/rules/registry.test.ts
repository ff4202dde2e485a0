import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judgeOthers } from '../../src/rules/engine.js';
import { rules } from '../../src/rules/rules.js';
import { rulesets } from '../../src/rules/rulesets.js';
import { loadCases } from './load-cases.js';
import { student2020 } from './sound-facts.js';

const tables = await loadCases();
const files = readdirSync(new URL('../../src/rules/rules/', import.meta.url)).map((file) => file.replace(/\.ts$/, ''));
const ids = rules.map(({ meta }) => meta.id);

describe('the registry of rules', () => {
  it('holds every file of the folder once, under the file’s name', () => {
    expect([...ids].sort()).toEqual([...files].sort());
  });

  it('has a table of cases for every rule and no other', () => {
    expect([...tables.keys()].sort()).toEqual([...ids].sort());
  });

  it('loads each rule from the file of its id', async () => {
    for (const file of files) {
      const loaded = (await import(`../../src/rules/rules/${file}.ts`)) as { readonly rule: (typeof rules)[number] };
      expect(loaded.rule.meta.id).toBe(file);
    }
  });

  it.each(ids)('%s has a case that meets it, one that violates it, and one that is open where that can be', (id) => {
    const table = tables.get(id)!;
    const statuses = new Set(table.cases.map(({ status }) => status));
    expect(statuses).toContain('met');
    expect(statuses).toContain('violated');
    expect(statuses.has('undetermined')).toBe(table.neverUndetermined === undefined);
  });

  it.each(ids)('%s has a case for each of its messages and remedies', (id) => {
    const { meta, check } = rules.find((rule) => rule.meta.id === id)!;
    const outcomes = tables
      .get(id)!
      .cases.map(({ facts, ruleset = student2020 }) => check(facts, ruleset, judgeOthers(ruleset)));
    expect(new Set(outcomes.map(({ message }) => message))).toEqual(new Set(Object.keys(meta.messages)));
    expect(new Set(outcomes.flatMap(({ remedy }) => remedy ?? []))).toEqual(new Set(Object.keys(meta.remedies)));
  });

  it.each(ids)('%s has a clause in some ruleset, or is advice of our own in every one', (id) => {
    const rows = rulesets.flatMap((ruleset) => ruleset.rules.filter(({ rule }) => rule === id));
    expect(rows.length).toBeGreaterThan(0);
    const cited = rows.some(({ clauses }) => clauses.length > 0);
    const ours = rows.every(({ weight, confirmed }) => weight === 'advice' && confirmed === 'ours');
    expect(cited || ours).toBe(true);
  });

  it.each(rules.map(({ meta }) => meta))('$id explains itself', (meta) => {
    expect(meta.title).toMatch(/^[A-Z].*[^.]$/);
    expect(meta.rationale).toMatch(/\.$/);
    expect(meta.inspect).toMatch(/\.$/);
    expect(Object.keys(meta.remedies)).not.toEqual([]);
    for (const text of [...Object.values(meta.messages), ...Object.values(meta.remedies)])
      expect(text).toMatch(/[.}]$/);
    for (const parameter of meta.parameters) {
      for (const ruleset of rulesets) expect(ruleset.parameters).toHaveProperty(parameter);
    }
  });

  it('never says what only an official may say', () => {
    const texts = rules.flatMap(({ meta }) => [
      meta.title,
      meta.rationale,
      meta.inspect,
      ...Object.values(meta.messages),
      ...Object.values(meta.remedies),
    ]);
    for (const text of texts) expect(text).not.toMatch(/\b(safe|safely|passed|approved|compliant)\b/i);
  });
});
