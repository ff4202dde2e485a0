import { describe, expect, it } from 'vitest';
import { comparePointers } from '../../src/circuit/pointer.js';
import { judgeOthers } from '../../src/rules/engine.js';
import { fillTemplate } from '../../src/rules/fill-template.js';
import { rules } from '../../src/rules/rules.js';
import { loadCases } from './load-cases.js';
import { student2020 } from './sound-facts.js';

const tables = await loadCases();

const HOLE = / {2}|\( *\)|[(,;:] *[.;,)]| (?:through|with|by|and|of|than) *[.;,)]/;

for (const rule of rules) {
  const { meta, check } = rule;
  describe(meta.id, () => {
    it.each([...(tables.get(meta.id)?.cases ?? [])])('$status: $name', (row) => {
      const ruleset = row.ruleset ?? student2020;
      const outcome = check(row.facts, ruleset, judgeOthers(ruleset));
      const text = fillTemplate(meta.messages[outcome.message] ?? 'no such message', outcome.values ?? {});
      expect({ status: outcome.status, message: outcome.message, text }).toEqual({
        status: row.status,
        message: row.message,
        text,
      });
      for (const part of row.says ?? []) expect(text).toContain(part);
      expect(text).toMatch(/^\S.*\.$/);
      expect(text).not.toMatch(/NaN|undefined|Infinity|\bnull\b/);
      // An empty list leaves a hole in the sentence.
      expect(text).not.toMatch(HOLE);

      const missing = [...new Set(outcome.missing ?? [])].sort(comparePointers);
      if (row.missing !== undefined) expect(missing).toEqual([...row.missing].sort(comparePointers));
      if (outcome.status === 'undetermined') expect(missing).not.toEqual([]);
      if (row.elements !== undefined) expect(outcome.elements).toEqual(row.elements);
      expect(outcome.causedBy ?? []).toEqual(row.causedBy ?? []);

      expect(outcome.remedy === undefined).toBe(outcome.status !== 'violated');
      if (outcome.remedy !== undefined) {
        const remedy = fillTemplate(meta.remedies[outcome.remedy] ?? 'no such remedy', outcome.values ?? {});
        for (const part of row.remedySays ?? []) expect(remedy).toContain(part);
        expect(remedy).toMatch(/\.$/);
        expect(remedy).not.toMatch(HOLE);
        expect(remedy).not.toMatch(/NaN|undefined|Infinity/);
      }
      for (const [key, value] of Object.entries(row.evidence ?? {}))
        expect(outcome.evidence?.[key], key).toEqual(value);
      // Evidence goes onto the wire as it is.
      expect(JSON.parse(JSON.stringify(outcome.evidence ?? {}))).toEqual(outcome.evidence ?? {});
    });
  });
}
