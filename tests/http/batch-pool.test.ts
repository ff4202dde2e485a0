import { afterEach, describe, expect, it } from 'vitest';
import { BatchPool } from '../../src/http/pool/batch-pool.js';
import type { BatchSettings } from '../../src/http/pool/chunk.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { Threads, type ThreadsOptions } from '../../src/http/pool/threads.js';
import { largeRequest } from './large-request.js';

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

const started: Threads[] = [];
function threads(options: ThreadsOptions = {}): Threads {
  const made = new Threads({ threads: 2, workerFile: STUB, ...options });
  started.push(made);
  return made;
}
function pool({ itemSeconds = 5, ...options }: ThreadsOptions & { itemSeconds?: number } = {}): BatchPool {
  return new BatchPool(threads(options), itemSeconds);
}
/** One whose threads run, so that every item goes to them. */
async function running(options: Parameters<typeof pool>[0] = {}): Promise<BatchPool> {
  const { itemSeconds = 5, ...own } = options;
  const run = threads(own);
  await run.start();
  return new BatchPool(run, itemSeconds);
}
afterEach(async () => {
  await Promise.all(started.splice(0).map((one) => one.close()));
});

describe('the pool', () => {
  it('answers items in their order', async () => {
    const results = await (await running()).judge(items('a', 'bb', 'ccc'), settings, forever);
    expect(results.map(({ text }) => JSON.parse(text).held)).toEqual([1, 2, 3]);
  });

  it('ends an item that never ends, and answers its neighbours as if it had not been there', async () => {
    const short = await running({ itemSeconds: 0.3 });
    const results = await short.judge(items('a', 'loop', 'ccc', 'loop', 'eeeee'), settings, forever);
    expect(results.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
    const answers = results.map(({ text }) => JSON.parse(text));
    expect(answers.map(({ status }) => status)).toEqual([200, 422, 200, 422, 200]);
    expect(answers[1].problem).toMatchObject({ code: 'item-timeout', type: '/problems/item-timeout' });
    expect([answers[0].held, answers[4].held]).toEqual([1, 5]);
    expect(results.map(({ outcome }) => outcome)).toContain('errors');
  });

  it('names an item that it ended, and says what is costly about it', async () => {
    const short = await running({ itemSeconds: 0.3 });
    const { circuit, ...others } = largeRequest();
    const heavy = JSON.stringify({ id: 'car-15', ...others, circuit: { ...circuit, title: 'loop' } });
    const [result] = await short.judge(items(heavy), settings, forever);
    const answer = JSON.parse(result!.text);
    expect(answer).toMatchObject({ id: 'car-15', status: 422, problem: { code: 'item-timeout' } });
    expect(answer.problem.detail).toMatch(
      /ended\. .*There are \d+ elements: put those in series or side by side together/,
    );
  });

  it('outlives an item that takes its thread with it', async () => {
    const results = await (await running()).judge(items('a', 'die', 'ccc'), settings, forever);
    const answers = results.map(({ text }) => JSON.parse(text));
    expect(answers.map(({ status }) => status)).toEqual([200, 500, 200]);
    expect(answers[1].problem.detail).not.toMatch(/exit|worker|thread/i);
    expect(results[1]?.failure).toBeTypeOf('string');
  });

  it('is ended with its caller, be an item in hand or not', async () => {
    const controller = new AbortController();
    const one = await running({ itemSeconds: 60 });
    await one.judge(items('a'), settings, forever);
    const waiting = Array.from({ length: 6 }, () => one.judge(items('loop'), settings, controller.signal));
    setTimeout(() => controller.abort(), 100);
    const start = performance.now();
    for (const result of await Promise.allSettled(waiting)) expect(result.status).toBe('rejected');
    expect(performance.now() - start).toBeLessThan(5000);
    expect((await one.judge(items('after'), settings, forever))[0]?.outcome).toBe('undetermined');
  });

  it('judges what is small while its threads start, and leaves to them what is not', async () => {
    const small = JSON.stringify(requestExamples['verifyCircuit']?.['smallCar']?.value);
    const large = JSON.stringify(largeRequest());
    const results = await pool({ itemSeconds: 60 }).judge(items(small, large, small), settings, forever);
    const answers = results.map(({ text }) => JSON.parse(text));
    // Only the stub tells how long a text it held; it holds what comes behind a large item, since its thread runs by then.
    expect(answers.map(({ held }) => held)).toEqual([undefined, large.length, small.length]);
    expect(answers[0].verdict).toBeTypeOf('string');
  });

  it('does it all in one thread where it can start none', async () => {
    const reasons: unknown[] = [];
    const lone = await running({
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
    const judging = lone.judge(items(...Array.from({ length: 20_000 }, () => '{}')), settings, controller.signal);
    setTimeout(() => controller.abort(), 20);
    await expect(judging).rejects.toThrow(/abort/i);
  });

  it('uses our own worker, which says what the calling thread would', async () => {
    const texts = ['{}', 'no', '{"id":3,"circuit":{"elements":[]},"ruleset":"student-ev-2020"}'];
    const own = new Threads({ threads: 1 });
    started.push(own);
    await own.start();
    const real = new BatchPool(own, 30);
    const there = await real.judge(items(...texts), settings, forever);
    const here = await pool({ threads: 0 }).judge(items(...texts), settings, forever);
    expect(there).toEqual(here);
  });
});
