import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { buildApp } from '../../src/http/build-app.js';
import { cautions } from '../../src/verify/cautions.js';
import { examples } from '../examples/read-examples.js';

const source = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const readme = source.replace(/\s+/g, ' ');

interface Answer {
  readonly verdict: string;
  readonly findings: ReadonlyArray<Readonly<Record<string, unknown>>>;
}

describe('the README', () => {
  test.each(cautions)('carries the caution $id', ({ text }) => {
    expect(readme).toContain(text);
  });

  test('names the two commands', () => {
    expect(readme).toContain('npm ci && npm run demo');
    expect(readme).toContain('npm ci && npm test');
  });

  test('shows an answer that the service really gives', async () => {
    const [, block] = /```json\n([\s\S]+?)```/.exec(source) ?? [];
    const shown = JSON.parse(block ?? '') as Answer;
    const car = examples.find(({ file }) => source.includes(`openapi/examples/${file}`));
    const app = await buildApp();
    const answer = await app.inject({ method: 'POST', url: '/v1/findings', payload: car?.example.request ?? {} });
    await app.close();
    const given = answer.json<Answer>();
    expect(given.verdict).toBe(shown.verdict);
    expect(given.findings[0]).toMatchObject(shown.findings[0] ?? { shown: false });
  });

  test('lists only calls that the service has', async () => {
    const app = await buildApp();
    const document = (await app.inject('/openapi.json')).json<{ paths: Readonly<Record<string, object>> }>();
    await app.close();
    const calls = source.split('## Calls')[1]?.split('## ')[0] ?? '';
    const paths = Array.from(calls.matchAll(/`(?:GET |POST )?(\/[\w./{}-]+)`/g), ([, path]) => path ?? '');
    expect(paths.length).toBeGreaterThan(10);
    // The manual is a page, not a call.
    expect(paths.filter((path) => path !== '/docs' && document.paths[path] === undefined)).toEqual([]);
  });
});
