import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from './import-graph.js';

const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
const builtIn = ['ci', 'install', 'test', 'start'];

describe.each(['README.md', 'DEVELOPERS.md'])('the commands that %s names', (page) => {
  const file = join(ROOT, page);

  it.skipIf(!existsSync(file))('exist', () => {
    const text = readFileSync(file, 'utf8');
    const named = [...text.matchAll(/\bnpm run ([a-z][\w:-]*)/g)].map((match) => match[1] ?? '');
    const short = [...text.matchAll(/\bnpm (?!run\b)([a-z]+)/g)].map((match) => match[1] ?? '');
    expect(named.filter((name) => scripts[name] === undefined)).toEqual([]);
    expect(short.filter((name) => !builtIn.includes(name))).toEqual([]);
  });
});

describe('the commands themselves', () => {
  it.each(Object.entries(scripts))('%s calls only scripts that exist', (_name, command) => {
    const called = [...command.matchAll(/\bnpm run ([a-z][\w:-]*)/g)].map((match) => match[1] ?? '');
    expect(called.filter((name) => scripts[name] === undefined)).toEqual([]);
  });

  it.each(Object.entries(scripts))('%s runs only files that exist', (_name, command) => {
    const files = [...command.matchAll(/\btsx (\S+)/g)].map((match) => match[1] ?? '');
    expect(files.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });
});
