import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findCycle, importGraph, SRC } from './import-graph.js';

/** What each floor may import from: itself and these. An allow-list, so that a new folder is refused until it has a place. */
const floors: Readonly<Record<string, readonly string[]>> = {
  circuit: [],
  transient: ['circuit'],
  facts: ['circuit', 'transient'],
  limits: ['circuit', 'transient', 'facts'],
  rules: ['circuit', 'transient', 'facts', 'limits'],
  verify: ['circuit', 'transient', 'facts', 'limits', 'rules'],
  render: ['circuit', 'transient', 'facts', 'limits', 'rules', 'verify'],
  http: ['circuit', 'transient', 'facts', 'limits', 'rules', 'verify', 'render'],
  demo: ['circuit', 'transient', 'facts', 'limits', 'rules', 'verify', 'render', 'http'],
};

/** Packages that the pure floors may use: all are computation or description, none touches the world. */
const purePackages = ['@sinclair/typebox', 'ajv'];
/** Node's own modules by floor, with the reason. */
const nodeModules: Readonly<Record<string, readonly string[]>> = { verify: ['node:crypto'] }; // the input digest
const pureFloors = ['circuit', 'transient', 'facts', 'limits', 'rules', 'verify', 'render'];

/** Ways out of a pure function that need no import. */
const impure: Readonly<Record<string, RegExp>> = {
  clock: /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b|\bprocess\.hrtime\b/,
  timers: /\bset(?:Timeout|Interval|Immediate)\s*\(/,
  randomness: /\bMath\.random\b|\brandomUUID\b|\brandomBytes\b|\bgetRandomValues\b/,
  environment: /\bprocess\.(?:env|argv|cwd|exit|stdout|stderr)\b/,
  network: /\bfetch\s*\(/,
  console: /\bconsole\.\w/,
  'dynamic import': /\bimport\s*\(/,
};

const graph = importGraph();
const floorOf = (path: string): string => path.split('/')[0] ?? '';
const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');

describe('the floors', () => {
  it.each(Object.keys(floors))('src/%s exists, so its fence guards something', (floor) => {
    const folder = join(SRC, floor);
    expect(existsSync(folder) && statSync(folder).isDirectory()).toBe(true);
    expect(graph.some(({ path }) => floorOf(path) === floor)).toBe(true);
  });

  it('holds every source file but the entry point', () => {
    const homeless = graph.filter(({ path }) => path !== 'main.ts' && floors[floorOf(path)] === undefined);
    expect(homeless.map(({ path }) => path)).toEqual([]);
  });

  it('imports point down only', () => {
    const wrong = graph
      .filter(({ path }) => path !== 'main.ts')
      .flatMap(({ path, imports }) => {
        const own = floorOf(path);
        return imports
          .filter((target) => floorOf(target) !== own && !(floors[own] ?? []).includes(floorOf(target)))
          .map((target) => `${path} → ${target}`);
      });
    expect(wrong).toEqual([]);
  });

  it('every import leads to a file', () => {
    const paths = new Set(graph.map(({ path }) => path));
    const lost = graph.flatMap(({ path, imports }) =>
      imports.filter((one) => !paths.has(one)).map((one) => `${path} → ${one}`),
    );
    expect(lost).toEqual([]);
  });

  it('the import graph has no cycle', () => {
    expect(findCycle(graph)).toBeUndefined();
  });

  it('finds a cycle where there is one', () => {
    const files = [
      { path: 'a.ts', imports: ['b.ts'] },
      { path: 'b.ts', imports: ['c.ts'] },
      { path: 'c.ts', imports: ['b.ts'] },
    ];
    expect(findCycle(files)).toEqual(['b.ts', 'c.ts', 'b.ts']);
  });
});

describe.each(pureFloors)('src/%s is pure', (floor) => {
  const files = graph.filter(({ path }) => floorOf(path) === floor);

  it('imports only packages that compute', () => {
    const allowed = [...purePackages, ...(nodeModules[floor] ?? [])];
    const foreign = files.flatMap(({ path, packages }) =>
      packages
        .filter((name) => !allowed.some((one) => name === one || name.startsWith(`${one}/`)))
        .map((name) => `${path} → ${name}`),
    );
    expect(foreign).toEqual([]);
  });

  it.each(Object.entries(impure))('has no %s', (_name, pattern) => {
    expect(files.filter(({ text }) => pattern.test(withoutComments(text))).map(({ path }) => path)).toEqual([]);
  });

  it('takes of node:crypto nothing but createHash', () => {
    const others = files.filter(({ text }) =>
      /import\s*\{(?!\s*createHash\s*\})[^}]*\}\s*from 'node:crypto'/.test(text),
    );
    expect(others.map(({ path }) => path)).toEqual([]);
  });
});
