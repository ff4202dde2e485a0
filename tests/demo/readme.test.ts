import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../src/http/build-app.js';
import { cautions } from '../../src/verify/cautions.js';
import { examples } from '../examples/read-examples.js';
import { STAND_IN_CURL } from '../http/stand-in-curl.js';

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

describe('the README’s requests, run as they are written', () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const blocks = Array.from(source.matchAll(/^```\w*\n([\s\S]+?)^```$/gm), ([, code]) => code ?? '');
  const requests = blocks.filter((code) => code.includes('curl '));
  const app = buildApp({ work: { threads: 0 } });
  let folder: string;
  let address: string;
  beforeAll(async () => {
    await (await app).listen({ port: 0, host: '127.0.0.1' });
    address = `http://127.0.0.1:${((await app).server.address() as AddressInfo).port}`;
    folder = mkdtempSync(join(tmpdir(), 'readme-'));
    symlinkSync(join(root, 'openapi'), join(folder, 'openapi'));
    writeFileSync(join(folder, 'curl'), STAND_IN_CURL, { mode: 0o755 });
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true });
    await (await app).close();
  });
  const run = async (call: string): Promise<string> => {
    const code = requests.find((request) => request.includes(call)) ?? `echo no request of ${call}; false`;
    const path = [folder, process.env['PATH'] ?? ''].join(delimiter);
    const command = code.replaceAll('http://127.0.0.1:8080', address);
    return (await promisify(execFile)('sh', ['-c', command], { cwd: folder, env: { PATH: path } })).stdout;
  };

  test('a car by hand', async () => {
    expect((JSON.parse(await run('/v1/findings')) as Answer).verdict).toBe('violation-found');
  });

  test('a report to read, the same by address and by header', async () => {
    const code = requests.find((request) => request.includes('/v1/verify?')) ?? '';
    await run('/v1/verify?');
    const report = readFileSync(join(folder, 'report.md'), 'utf8');
    expect(report).toMatch(/^# .*\n/);
    expect(report).toContain('## Discharge');
    const [, file] = /examples\/([\w-]+\.json)/.exec(code) ?? [];
    const byHeader = await (await app).inject({
      method: 'POST',
      url: '/v1/verify',
      headers: { accept: 'text/markdown' },
      payload: examples.find((example) => example.file === file)?.example.request ?? {},
    });
    expect(byHeader.body).toBe(report);
  });

  test('a table, from the template to its verdicts', async () => {
    await run('/v1/rows?format=csv');
    await run('/v1/verify/batch');
    const [head = '', ...rows] = readFileSync(join(folder, 'verdicts.csv'), 'utf8').trimEnd().split('\r\n');
    expect(head).toContain('result_verdict');
    expect(rows).toHaveLength(4);
    for (const row of rows) expect(row).toContain(',200,no-violation-found,');
  });

  test('a second revision', async () => {
    expect(JSON.parse(await run('/v1/compare'))).toMatchObject({
      verdict: { before: 'violation-found', after: 'no-violation-found' },
      parts: [{ id: 'precharge-resistor', change: 'changed' }],
    });
  });

  test('are all of them', () => {
    expect(requests).toHaveLength(5);
  });
});
