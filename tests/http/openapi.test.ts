import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { cautions } from '../../src/verify/cautions.js';
import { type Operation, type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

const operations = (): [string, string, Operation][] =>
  Object.entries(service.description.paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]): [string, string, Operation] => [path, method, operation]),
  );

describe('the OpenAPI document', () => {
  it('is the one that is checked in; `npm run openapi` writes it', () => {
    const kept = readFileSync(new URL('../../openapi/openapi.yaml', import.meta.url), 'utf8');
    expect(kept).toBe(service.app.swagger({ yaml: true }));
  });

  it('is served as JSON and as YAML, alike', async () => {
    const json = await service.call('/openapi.json');
    const yaml = await service.call('/openapi.yaml');
    expect(parse(yaml.text)).toEqual(json.json);
    expect(json.json.openapi).toMatch(/^3\.1\./);
  });

  it('says the cautions', () => {
    const text = JSON.stringify(service.description);
    for (const caution of cautions) expect(text).toContain(caution.text);
  });

  it('describes every operation', () => {
    const tags = service.description.tags.map(({ name }) => name);
    for (const [path, method, operation] of operations()) {
      const name = `${method} ${path}`;
      expect(operation.operationId, name).toMatch(/^[a-z][A-Za-z]+$/);
      expect(operation.summary, name).toBeTruthy();
      expect(operation.description, name).toMatch(/\.$/);
      expect(tags, name).toEqual(expect.arrayContaining([...operation.tags]));
      expect(operation.tags, name).toHaveLength(1);
      expect(
        Object.keys(operation.responses).some((status) => status.startsWith('4')),
        name,
      ).toBe(true);
    }
  });

  it('names each operation once', () => {
    const ids = operations().map(([, , { operationId }]) => operationId);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('describes every route that there is, the manual’s files aside', () => {
    const routes = service.app.printRoutes({ commonPrefix: false });
    expect(routes).toContain('verify');
    const paths = Object.keys(service.description.paths);
    expect(paths).toEqual(
      expect.arrayContaining(['/v1/verify', '/v1/findings', '/v1/limits', '/v1/transients', '/v1/circuits/check']),
    );
  });

  it('refers only to components that it has, and has only components that are referred to', () => {
    const text = JSON.stringify(service.description);
    const referred = new Set([...text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map((match) => match[1] ?? ''));
    const present = Object.keys(service.description.components.schemas);
    expect([...referred].filter((name) => !present.includes(name))).toEqual([]);
    expect(present.filter((name) => !referred.has(name))).toEqual([]);
    expect(present.filter((name) => name.startsWith('unnamed'))).toEqual([]);
  });

  it('has an example body for every operation that takes one', () => {
    for (const [path, , operation] of operations()) {
      if (operation.requestBody === undefined) continue;
      const examples = operation.requestBody.content['application/json']?.examples ?? {};
      expect(Object.keys(examples).length, path).toBeGreaterThan(0);
    }
  });

  it('has examples that are answered', async () => {
    for (const [path, , operation] of operations()) {
      for (const [name, { value }] of Object.entries(
        operation.requestBody?.content['application/json']?.examples ?? {},
      )) {
        const answer = await service.post(path, value);
        expect([path, name, answer.status, answer.json.errors]).toEqual([path, name, 200, undefined]);
      }
    }
  });
});
