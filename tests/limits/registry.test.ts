import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { limits, scalarNames } from '../../src/limits/index.js';

const files = readdirSync(new URL('../../src/limits/limits/', import.meta.url)).map((file) =>
  file.replace(/\.ts$/, ''),
);

describe('the limits', () => {
  it('are one file each, by their names', () => {
    expect(limits.map(({ meta }) => meta.name).sort()).toEqual([...files].sort());
  });

  it.each(limits.map((limit) => [limit.meta.name, limit] as const))('%s is complete', (name, { meta, fromScalars }) => {
    expect(meta.sources.length).toBeGreaterThan(0);
    expect(meta.title.length).toBeGreaterThan(10);
    expect(meta.formula).toMatch(/\.$/);
    expect(name).toContain(`-${meta.bound}`.replace(name === 'measuring-point-resistance' ? '-min' : '', ''));
    const rule = new URL(`../../src/rules/rules/${meta.rule}.ts`, import.meta.url);
    expect(existsSync(rule)).toBe(true);
    const names = [...fromScalars.required, ...fromScalars.optional];
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((each) => !scalarNames.includes(each))).toEqual([]);
    expect(fromScalars.required.length).toBeGreaterThan(0);
  });
});
