import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { columns } from '../../src/verify/rows/columns/columns.js';
import { exampleRows } from '../../src/verify/rows/example-rows.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService({ work: { threads: 0 } });
});
afterAll(() => service.app.close());

const TIME = 180_000;
const ITEM_STATUSES = [200, 400, 413, 422];

const batch = (payload: Buffer | string, type: string, query = '?ruleset=student-ev-2020') =>
  service.call({ method: 'POST', url: `/v1/verify/batch${query}`, payload, headers: { 'content-type': type } });
const statusesOf = (text: string): number[] =>
  text
    .trimEnd()
    .split('\n')
    .slice(0, -1)
    .map((line) => (JSON.parse(line) as { status: number }).status);

/** What people and programs put into a cell. */
const cell = fc.oneof(
  fc.constantFrom(
    '',
    '-',
    'none',
    'yes',
    'no',
    '0',
    '1',
    '-1',
    '1e300',
    '1e-300',
    '0 Ω',
    '1 TΩ',
    '1 pF',
    '5 %',
    '100 %',
    '±',
    '± 5 %',
    '1 ± 2 ± 3',
  ),
  fc.constantFrom(
    'open',
    'closed',
    'container',
    'vehicle',
    'behind-disconnect',
    'between-containers',
    'no-contact',
    'independent',
  ),
  fc.string({ maxLength: 8 }),
  fc.jsonValue({ maxDepth: 1 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
const names = columns.map(({ name }) => name);

describe('rows', () => {
  it(
    'with up to four cells spoilt are drawn or refused, and judged or refused alike',
    async () => {
      const row = fc
        .tuple(
          fc.constantFrom(...exampleRows),
          fc.array(fc.tuple(fc.constantFrom(...names), cell), { minLength: 1, maxLength: 4 }),
        )
        .map(([base, changes]) => ({ ...base, ...Object.fromEntries(changes) }));
      await fc.assert(
        fc.asyncProperty(row, async (one) => {
          const drawn = await service.post('/v1/circuits', { row: one });
          expect([200, 422]).toContain(drawn.status);
          const judged = await service.post('/v1/verify/batch', [{ row: one, ruleset: 'student-ev-2020' }]);
          const [result] = judged.json.results;
          expect(ITEM_STATUSES).toContain(result.status);
          if (drawn.status === 422) {
            expect(result.status).toBe(422);
            for (const { pointer } of result.problem.errors) expect(pointer).toMatch(/^#\/row/);
          }
        }),
        { numRuns: 150 },
      );
    },
    TIME,
  );

  it('that are any JSON at all are answered', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 3 }), async (row) => {
        expect([200, 422]).toContain((await service.post('/v1/circuits', { row })).status);
      }),
      { numRuns: 150 },
    );
  });
});

describe('a batch', () => {
  it('of any JSON values has an answer for each', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.jsonValue({ maxDepth: 3 }), { maxLength: 8 }), async (items) => {
        const { json } = await service.post('/v1/verify/batch', items);
        expect(json.results.map(({ index }: { index: number }) => index)).toEqual(items.map((_, index) => index));
        for (const { status } of json.results) expect(ITEM_STATUSES).toContain(status);
      }),
      { numRuns: 100 },
    );
  });

  it('of any bytes is answered, as lines, as a list and as a table', async () => {
    const bytes = fc.uint8Array({ maxLength: 200 });
    await fc.assert(
      fc.asyncProperty(
        bytes,
        fc.constantFrom('application/x-ndjson', 'application/json', 'text/csv'),
        async (some, type) => {
          const answer = await batch(Buffer.from(some), type);
          expect([200, 400, 422]).toContain(answer.status);
          if (answer.status === 200 && type === 'application/x-ndjson') {
            for (const status of statusesOf(answer.text)) expect(ITEM_STATUSES).toContain(status);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('of a table with any text in its cells has an answer for each row', async () => {
    const text = fc.string({
      unit: fc.constantFrom('a', '1', ',', ';', '"', '\n', '\r', ' ', '=', 'µ', '.'),
      maxLength: 10,
    });
    const quoted = (one: string) => `"${one.replaceAll('"', '""')}"`;
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(text, text, text), { minLength: 1, maxLength: 5 }), async (rows) => {
        const filled = rows.filter((row) => row.some((one) => one.trim() !== ''));
        const table = ['car,arrangement,team', ...rows.map((row) => row.map(quoted).join(','))].join('\r\n');
        const answer = await batch(table, 'text/csv', '?ruleset=student-ev-2020&format=ndjson');
        expect(statusesOf(answer.text)).toEqual(filled.map(() => 422));
      }),
      { numRuns: 100 },
    );
  });
});

describe('a comparison', () => {
  it('of any JSON values is answered', async () => {
    const after = (requestExamples['compareCircuits']?.['otherResistor']?.value as { after: object }).after;
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 3 }), async (before) => {
        const answer = await service.post('/v1/compare', { before, after, ruleset: 'student-ev-2020' });
        expect([200, 422]).toContain(answer.status);
      }),
      { numRuns: 60 },
    );
  });
});
