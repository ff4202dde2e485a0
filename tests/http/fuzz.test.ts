import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

const calls: readonly [string, string, string][] = [
  ['/v1/verify', 'verifyCircuit', 'withEventMeter'],
  ['/v1/findings', 'findRuleBreaches', 'smallCar'],
  ['/v1/limits', 'computeLimits', 'smallCar'],
  ['/v1/transients', 'computeTransients', 'rise'],
  ['/v1/circuits/check', 'checkCircuit', 'smallCar'],
];

/** Of spoilt requests for each call; most are refused, the others cost a whole verification. */
const RUNS = 60;
const TIME = 180_000;

/** Every place in a JSON value, as a list of keys. */
function placesIn(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [[...path]];
  return [[...path], ...Object.entries(value).flatMap(([key, inner]) => placesIn(inner, [...path, key]))];
}

/** A copy with the value at a place replaced, or gone where `by` is undefined. */
function replaced(value: unknown, path: readonly string[], by: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return by;
  const copy: any = structuredClone(value);
  copy[key] = replaced(copy[key], rest, by);
  if (Array.isArray(copy)) return copy.filter((item) => item !== undefined);
  return copy;
}

/** What a careless or hostile caller puts in place of a value. */
const odd = fc.oneof(
  fc.constant(undefined),
  fc.jsonValue({ maxDepth: 2 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.constantFrom(
    0,
    -0,
    1e-300,
    1e300,
    '',
    ' ',
    '0 Ω',
    '47k',
    '1e9 V',
    '-5 s',
    'lp',
    'ln',
    'bp',
    'link',
    'meter',
    'pack',
    [],
    {},
    null,
    true,
  ),
);

/** No answer but a result or a problem of the caller's: the harness holds each against the description. */
function expectAnswered(status: number): void {
  expect([200, 400, 422]).toContain(status);
}

describe.each(calls)('%s', (url, operation, name) => {
  it('answers any JSON at all with a result or with what is wrong', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 6 }), async (body) =>
        expectAnswered((await service.post(url, body)).status),
      ),
      { numRuns: 150 },
    );
  });

  it(
    'answers a good request with up to three values spoilt',
    async () => {
      const good = requestExamples[operation]?.[name]?.value;
      const places = placesIn(good).slice(1);
      const spoilt = fc
        .array(fc.tuple(fc.constantFrom(...places), odd), { minLength: 1, maxLength: 3 })
        .map((changes) =>
          changes.reduce<unknown>((body, [place, by]) => {
            try {
              return replaced(body, place, by);
            } catch {
              return body; // an earlier change took the place away
            }
          }, good),
        );
      await fc.assert(
        fc.asyncProperty(spoilt, async (body) => expectAnswered((await service.post(url, body)).status)),
        { numRuns: RUNS },
      );
    },
    TIME,
  );

  it('answers any bytes', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 60 }), async (bytes) => {
        const answer = await service.call({
          method: 'POST',
          url,
          payload: Buffer.from(bytes),
          headers: { 'content-type': 'application/json' },
        });
        expect(answer.status >= 400 && answer.status < 500).toBe(true);
      }),
      { numRuns: 100 },
    );
  });
});

describe('any address', () => {
  it('is answered without a fault of the service', async () => {
    const part = fc.oneof(
      fc.constantFrom(
        'v1',
        'verify',
        'rulesets',
        'problems',
        'docs',
        'static',
        '..',
        '.',
        '%2e%2e',
        '%00',
        '__proto__',
        '*',
        ':id',
      ),
      fc.webPath(),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(part, { maxLength: 5 }), fc.webQueryParameters(), async (parts, query) => {
        const response = await service.app.inject(`/${parts.join('/')}?${query}`);
        expect(response.statusCode).toBeLessThan(500);
      }),
      { numRuns: 400 },
    );
  });
});
