import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { capacities } from '../../src/circuit/index.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { cautions } from '../../src/verify/cautions.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

describe('the catalogue', () => {
  it('lists the five rulesets of which data is kept, and each in full', async () => {
    const { json } = await service.call('/v1/rulesets');
    const ids = json.rulesets.map((one: { id: string }) => one.id);
    expect(ids).toEqual([
      'collegiate-ev-2014',
      'collegiate-ev-2024',
      'collegiate-ev-2026',
      'student-ev-2020',
      'student-ev-2026',
    ]);
    for (const id of ids) {
      const { status, json: ruleset } = await service.call(`/v1/rulesets/${id}`);
      expect(status).toBe(200);
      expect(ruleset.rules.length).toBeGreaterThan(0);
    }
  });

  it('says of each parameter how sure it is, and whether an event may replace it', async () => {
    const { json } = await service.call('/v1/rulesets/student-ev-2020');
    const threshold = json.parameters.find((one: { name: string }) => one.name === 'threshold');
    // Formula Student Rules 2020, EV 5.7.1: 95 % of the actual accumulator voltage.
    expect(threshold).toMatchObject({ value: 0.95, overridable: true });
    expect(threshold.clause).toContain('5.7.1');
  });

  it('tells what a new season changes, and nothing where nothing does', async () => {
    const { json } = await service.call('/v1/rulesets/collegiate-ev-2024/differences/collegiate-ev-2026');
    expect(json).toMatchObject({ from: 'collegiate-ev-2024', to: 'collegiate-ev-2026' });
    // Formula SAE Rules: a timer was allowed in 2024 (EV.5.6.2) and is no longer in 2026 (EV.5.6.2a); fuse and PTC bans have gone.
    expect(json.parameters).toEqual([
      {
        parameter: 'prechargeDecision',
        differs: ['value', 'clause'],
        from: expect.objectContaining({ value: 'measured-voltage-or-timer', clause: 'EV.5.6.2' }),
        to: expect.objectContaining({ value: 'measured-voltage', clause: 'EV.5.6.2a' }),
      },
    ]);
    const gone = json.rules.filter((one: { to: unknown }) => one.to === null).map((one: { rule: string }) => one.rule);
    expect(gone).toEqual(['indicator-sees-voltage', 'no-ptc', 'precharge-unfused']);
    const same = await service.call('/v1/rulesets/student-ev-2026/differences/student-ev-2026');
    expect(same.json).toMatchObject({ parameters: [], rules: [] });
  });

  it('knows no differences from a ruleset that does not exist', async () => {
    for (const url of ['/v1/rulesets/student-ev-2026/differences/x', '/v1/rulesets/x/differences/student-ev-2026']) {
      const { status, json } = await service.call(url);
      expect(status).toBe(404);
      expect(json.detail).toContain('student-ev-2026');
    }
  });

  it('lists the rules with the rulesets they are in force in', async () => {
    const { json } = await service.call('/v1/rules');
    const time = json.rules.find((one: { id: string }) => one.id === 'discharge-time');
    expect(time.rationale).toMatch(/\.$/);
    expect(time.rulesets.map((one: { id: string }) => one.id)).toContain('student-ev-2020');
  });

  it('serves every example it lists', async () => {
    const { json } = await service.call('/v1/examples');
    expect(json.examples.length).toBeGreaterThan(0);
    for (const { id, title } of json.examples) {
      const example = await service.call(`/v1/examples/${id}`);
      expect(example.json).toMatchObject({ id, title });
    }
  });

  it('publishes the bounds that the readers enforce', async () => {
    const { json } = await service.call('/v1/capacities');
    expect(json).toMatchObject({ ...capacities, bodyBytes: 1_048_576 });
  });

  it('says of every bound what it counts, by name and unit', async () => {
    const { json } = await service.call('/v1/capacities');
    const { content } = service.description.paths['/v1/capacities']!['get']!.responses['200']!;
    const { schema } = content!['application/json'] as {
      schema: { properties: Record<string, { description: string }> };
    };
    const described = Object.entries(schema.properties).map(([name, { description }]) => [name, description] as const);
    expect(described.map(([name]) => name).sort()).toEqual(Object.keys(json).sort());
    expect(new Set(described.map(([, text]) => text)).size).toBe(described.length);
    for (const [name, text] of described) {
      expect(text).toMatch(/^[A-Z].*\.$/);
      // A name that ends in its unit begins its sentence with it.
      const [unit] = /(?:Bytes|Characters|Lines|Seconds)$/.exec(name) ?? [''];
      expect(text.startsWith(unit)).toBe(true);
    }
  });

  it('serves every schema by itself, complete', async () => {
    const { json } = await service.call('/v1/schemas');
    for (const name of json.schemas) {
      const { json: schema } = await service.call(`/v1/schemas/${name}`);
      const ajv = new Ajv2020({ strict: false, validateFormats: false });
      expect(() => ajv.compile(schema), name).not.toThrow();
    }
  });

  it('accepts the example car by the circuit’s own schema, and refuses a misspelling', async () => {
    const { json: schema } = await service.call('/v1/schemas/Circuit');
    const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(schema);
    const example = requestExamples['checkCircuit']?.['smallCar']?.value as { circuit: object };
    expect(validate(example.circuit)).toBe(true);
    expect(validate({ ...example.circuit, measuringPoint: {} })).toBe(false);
  });

  it.each([
    '/v1/rulesets/no-such',
    '/v1/examples/no-such',
    '/v1/schemas/no-such',
    '/problems/no-such',
    '/v1/rulesets/__proto__',
  ])('answers %s with 404', async (url) => {
    expect((await service.call(url)).json).toMatchObject({ status: 404, code: 'not-found' });
  });
});

describe('entity tags', () => {
  it.each([
    '/v1/rulesets',
    '/v1/rulesets/student-ev-2020',
    '/v1/rules',
    '/v1/examples',
    '/v1/capacities',
    '/v1/schemas/Circuit',
    '/problems',
  ])('%s has a strong one, and 304 for who has it already', async (url) => {
    const first = await service.call(url);
    const tag = String(first.headers['etag']);
    expect(tag).toMatch(/^"[\w-]{20,}"$/);
    for (const header of [tag, `W/${tag}`, `"other", ${tag}`, '*']) {
      const again = await service.call({ url, headers: { 'if-none-match': header } });
      expect([again.status, again.text]).toEqual([304, '']);
    }
    const other = await service.call({ url, headers: { 'if-none-match': '"other"' } });
    expect([other.status, other.text]).toEqual([200, first.text]);
  });

  it('differs from resource to resource and is the same in another process', async () => {
    const one = (await service.call('/v1/rulesets/student-ev-2020')).headers['etag'];
    expect((await service.call('/v1/rulesets/student-ev-2026')).headers['etag']).not.toBe(one);
    const other = await startService();
    expect((await other.call('/v1/rulesets/student-ev-2020')).headers['etag']).toBe(one);
    await other.app.close();
  });

  it('is not given for what does not exist', async () => {
    const answer = await service.call({ url: '/v1/rulesets/no-such', headers: { 'if-none-match': '*' } });
    expect(answer.status).toBe(404);
  });
});

describe('operations', () => {
  it('answers health and readiness with the engine’s version, which is the package’s and the newest of the changes', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    for (const url of ['/healthz', '/readyz']) {
      expect((await service.call(url)).json).toEqual({ status: 'ok', engine: version });
    }
    const changes = readFileSync(new URL('../../openapi/changes.md', import.meta.url), 'utf8');
    expect(/^## (.+)$/m.exec(changes)?.[1]).toBe(version);
  });

  it('points to its description and manual in every answer', async () => {
    const { headers } = await service.call('/healthz');
    const links = [...(headers['link'] as string).matchAll(/<([^>]+)>; rel="([^"]+)"/g)].map(([, to = '', rel]) => [
      rel,
      to,
    ]);
    expect(links).toEqual([
      ['service-desc', '/openapi.json'],
      ['service-doc', '/docs'],
      ['status', '/healthz'],
    ]);
    for (const [, to] of links) expect((await service.app.inject(to ?? '')).statusCode).toBe(200);
  });

  it('answers the bare address with addresses that exist', async () => {
    const { status, json } = await service.call('/');
    expect(status).toBe(200);
    expect(json.links).toMatchObject({ docs: '/docs', openapi: '/openapi.json', rulesets: '/v1/rulesets' });
    for (const link of Object.values<string>(json.links)) {
      const found = await service.app.inject({ method: 'OPTIONS', url: link });
      expect([link, found.statusCode]).toEqual([link, 204]);
    }
  });

  it('says the cautions and where the description is to a browser without scripts', async () => {
    for (const url of ['/docs', '/docs/']) {
      const { body } = await service.app.inject(url);
      const [, shown = ''] = /<body>[\s\S]*<noscript>([\s\S]*)<\/noscript>/.exec(body) ?? [];
      expect(shown).toContain('href="/openapi.json"');
      for (const { text } of cautions) {
        expect(text).not.toMatch(/[<>&"]/);
        expect(shown).toContain(text);
      }
    }
  });

  it('serves the manual without anything from another host', async () => {
    const page = await service.app.inject('/docs/');
    expect(page.body).toContain('Risefall');
    const links = [...page.body.matchAll(/(?:src|href)="([^"]+)"/g)].map((match) => match[1] ?? '');
    expect(links.length).toBeGreaterThan(2);
    for (const link of links) {
      expect(link).not.toMatch(/^(?:https?:)?\/\//);
      const file = await service.app.inject(new URL(link, 'http://host/docs/').pathname);
      expect([link, file.statusCode]).toEqual([link, 200]);
    }
    expect(page.headers['content-security-policy'] ?? '').not.toContain('upgrade-insecure-requests');
  });

  it('answers HEAD as GET without the body', async () => {
    const answer = await service.call({ method: 'HEAD', url: '/v1/rulesets' });
    expect([answer.status, answer.text]).toEqual([200, '']);
  });

  it('answers OPTIONS with what the address allows', async () => {
    expect((await service.call({ method: 'OPTIONS', url: '/v1/verify' })).headers['allow']).toBe('OPTIONS, POST');
    expect((await service.call({ method: 'OPTIONS', url: '/v1/rulesets/any' })).headers['allow']).toBe(
      'GET, HEAD, OPTIONS',
    );
  });
});
