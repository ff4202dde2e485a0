import { afterEach, describe, expect, it } from 'vitest';
import { BatchPool, type BatchPoolOptions } from '../../src/http/pool/batch-pool.js';
import type { BatchSettings } from '../../src/http/pool/chunk.js';

const STUB = new URL('./stub-worker.mjs', import.meta.url);
const settings: BatchSettings = {
  detail: 'verdict',
  defaults: { decimal: 'point' },
  output: 'json',
  csv: { separator: ',', decimal: 'point' },
  requestId: 'test',
};
const items = (...texts: string[]) =>
  texts.map((text, index) => ({
    index,
    line: index + 1,
    content: { form: 'json', bytes: new TextEncoder().encode(text) } as const,
  }));
const forever = new AbortController().signal;

const pools: BatchPool[] = [];
function pool(options: Partial<BatchPoolOptions> = {}): BatchPool {
  const made = new BatchPool({ threads: 2, itemSeconds: 5, batches: 8, workerFile: STUB, ...options });
  pools.push(made);
  return made;
}
afterEach(async () => {
  await Promise.all(pools.splice(0).map((one) => one.close()));
});

describe('the pool', () => {
  it('answers items in their order', async () => {
    const results = await pool().judge(items('a', 'bb', 'ccc'), settings, forever);
    expect(results.map(({ text }) => JSON.parse(text).held)).toEqual([1, 2, 3]);
  });

  it('ends an item that never ends, and answers its neighbours as if it had not been there', async () => {
    const results = await pool({ itemSeconds: 0.3 }).judge(
      items('a', 'loop', 'ccc', 'loop', 'eeeee'),
      settings,
      forever,
    );
    expect(results.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
    const answers = results.map(({ text }) => JSON.parse(text));
    expect(answers.map(({ status }) => status)).toEqual([200, 422, 200, 422, 200]);
    expect(answers[1].problem).toMatchObject({ code: 'item-timeout', type: '/problems/item-timeout' });
    expect([answers[0].held, answers[4].held]).toEqual([1, 5]);
    expect(results.map(({ outcome }) => outcome)).toContain('errors');
  });

  it('outlives an item that takes its thread with it', async () => {
    const results = await pool().judge(items('a', 'die', 'ccc'), settings, forever);
    const answers = results.map(({ text }) => JSON.parse(text));
    expect(answers.map(({ status }) => status)).toEqual([200, 500, 200]);
    expect(answers[1].problem.detail).not.toMatch(/exit|worker|thread/i);
    expect(results[1]?.failure).toBeTypeOf('string');
  });

  it('is ended with its caller, be an item in hand or not', async () => {
    const controller = new AbortController();
    const one = pool({ itemSeconds: 60 });
    await one.judge(items('a'), settings, forever);
    const waiting = Array.from({ length: 6 }, () => one.judge(items('loop'), settings, controller.signal));
    setTimeout(() => controller.abort(), 100);
    const start = performance.now();
    for (const result of await Promise.allSettled(waiting)) expect(result.status).toBe('rejected');
    expect(performance.now() - start).toBeLessThan(5000);
    expect((await one.judge(items('after'), settings, forever))[0]?.outcome).toBe('undetermined');
  });

  it('does it all in one thread where it can start none', async () => {
    const reasons: unknown[] = [];
    const lone = pool({
      workerFile: new URL('./no-such-worker.mjs', import.meta.url),
      onFallback: (reason) => reasons.push(reason),
    });
    const results = await lone.judge(items('{}', 'no'), settings, forever);
    expect(results.map(({ problem }) => problem?.code)).toEqual(['invalid-request', 'malformed-json']);
    expect(reasons).toHaveLength(1);
    await lone.judge(items('{}'), settings, forever);
    expect(reasons).toHaveLength(1);
  });

  it('starts no thread for items that could not be taken apart', async () => {
    const reasons: unknown[] = [];
    const one = pool({
      workerFile: new URL('./no-such-worker.mjs', import.meta.url),
      onFallback: (reason) => reasons.push(reason),
    });
    const refused = [{ index: 0, line: 7, content: { form: 'refused', why: 'too-long' } as const }];
    const [result] = await one.judge(refused, settings, forever);
    expect(JSON.parse(result?.text ?? '')).toMatchObject({ line: 7, status: 413 });
    expect(reasons).toEqual([]);
  });

  it('stops between two items in one thread too', async () => {
    const controller = new AbortController();
    const lone = pool({ threads: 0 });
    const running = lone.judge(items(...Array.from({ length: 20_000 }, () => '{}')), settings, controller.signal);
    setTimeout(() => controller.abort(), 20);
    await expect(running).rejects.toThrow(/abort/i);
  });

  it('uses our own worker, which says what the calling thread would', async () => {
    const texts = ['{}', 'no', '{"id":3,"circuit":{"elements":[]},"ruleset":"student-ev-2020"}'];
    const real = new BatchPool({ threads: 1, itemSeconds: 30, batches: 8 });
    pools.push(real);
    const there = await real.judge(items(...texts), settings, forever);
    const here = await pool({ threads: 0 }).judge(items(...texts), settings, forever);
    expect(there).toEqual(here);
  });
});
