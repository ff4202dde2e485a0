import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import type { FastifyInstance, InjectOptions } from 'fastify';
import { expect } from 'vitest';
import { type AppOptions, buildApp } from '../../src/http/build-app.js';

/** The parts of an OpenAPI document that the checks read. */
export interface Description {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, object>> };
  readonly tags: readonly { readonly name: string }[];
}
export interface Operation {
  readonly operationId: string;
  readonly summary: string;
  readonly description: string;
  readonly tags: readonly string[];
  readonly requestBody?: {
    readonly content: Readonly<Record<string, { readonly examples?: Record<string, { value: unknown }> }>>;
  };
  readonly responses: Readonly<
    Record<string, { readonly description: string; readonly content?: Readonly<Record<string, object>> }>
  >;
}

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
  /** Parsed where the answer is JSON of some kind. */
  readonly json: any;
}

export interface Service {
  readonly app: FastifyInstance;
  readonly description: Description;
  /** Sends a request in process and holds the answer against the description: status, media type and body. */
  readonly call: (options: InjectOptions | string) => Promise<Answer>;
  readonly post: (url: string, body: unknown) => Promise<Answer>;
}

/** A service of the test's own, whose every answer is checked against the OpenAPI document that it emits. */
export async function startService(options: AppOptions = {}): Promise<Service> {
  const app = await buildApp(options);
  const description = app.swagger() as unknown as Description;
  const check = conformanceOf(description);
  const call = async (options: InjectOptions | string): Promise<Answer> => {
    const request = typeof options === 'string' ? { url: options } : options;
    const response = await app.inject(request);
    const type = String(response.headers['content-type'] ?? '');
    const json = /[/+]json\b/.test(type) && response.body !== '' ? (JSON.parse(response.body) as unknown) : undefined;
    const answer = { status: response.statusCode, headers: response.headers, text: response.body, json };
    check(request.method ?? 'GET', String(request.url), answer);
    return answer;
  };
  const post = (url: string, body: unknown) =>
    call({ method: 'POST', url, headers: { 'content-type': 'application/json' }, payload: JSON.stringify(body) });
  return { app, description, call, post };
}

function conformanceOf(description: Description) {
  const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: false });
  ajv.addSchema(description, 'description');
  const compiled = new Map<string, ValidateFunction>();
  const validator = (pointer: string): ValidateFunction => {
    const known = compiled.get(pointer) ?? ajv.compile({ $ref: `description#${pointer}` });
    compiled.set(pointer, known);
    return known;
  };

  return (method: string, url: string, answer: Answer): void => {
    const path = url.split('?', 1)[0] ?? '';
    const type = String(answer.headers['content-type'] ?? '').split(';', 1)[0] ?? '';
    const place = placeOf(description, method, path);
    expect(answer.headers['x-request-id'], 'every answer carries its request id').toBeTypeOf('string');
    if (answer.status >= 400) {
      expect(type).toBe('application/problem+json');
      expectValid(validator('/components/schemas/Problem'), answer.json);
      expect(answer.json.status).toBe(answer.status);
    }
    if (place === undefined) return;
    const operation = description.paths[place.template]?.[place.method];
    const documented = operation?.responses[String(answer.status)];
    expect(documented, `${method} ${place.template} documents the status ${answer.status}`).toBeDefined();
    // HEAD answers as GET does, without the body.
    if (answer.text === '' || documented?.content === undefined) return;
    expect(Object.keys(documented.content), 'the media type is documented').toContain(type);
    if (answer.json === undefined) return;
    const steps = [
      'paths',
      place.template,
      place.method,
      'responses',
      String(answer.status),
      'content',
      type,
      'schema',
    ];
    const pointer = steps
      .map((step) => `/${encodeURIComponent(step.replaceAll('~', '~0').replaceAll('/', '~1'))}`)
      .join('');
    expectValid(validator(pointer), answer.json);
  };
}

function expectValid(validate: ValidateFunction, value: unknown): void {
  validate(value);
  expect(validate.errors ?? []).toEqual([]);
}

/** The operation that an address belongs to; undefined where the description has none. */
function placeOf(description: Description, method: string, path: string) {
  const name = method === 'HEAD' ? 'get' : method.toLowerCase();
  const template = Object.keys(description.paths).find((one) => {
    const pattern = one
      .split(/\{[^}]+\}/)
      .map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
      .join('[^/]+');
    return new RegExp(`^${pattern}$`).test(path) && description.paths[one]?.[name] !== undefined;
  });
  return template === undefined ? undefined : { template, method: name };
}
