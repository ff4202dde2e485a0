import { once } from 'node:events';
import { request as httpRequest, type ClientRequest, type IncomingMessage } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { createInterface } from 'node:readline';
import { setTimeout as wait } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { FastifyInstance } from 'fastify';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { buildApp } from '../../src/http/build-app.js';
import type { PoolOptions } from '../../src/http/pool/pool-plugin.js';
import { exampleRows } from '../../src/verify/rows/example-rows.js';

const STUB = new URL('./stub-worker.mjs', import.meta.url);
const apps: FastifyInstance[] = [];

/** A service whose threads run: what comes while they start is judged without them where it is small. */
async function start(work: PoolOptions): Promise<{ app: FastifyInstance; port: number }> {
  const app = await buildApp({ work });
  apps.push(app);
  await app.threads.start();
  await app.listen({ port: 0, host: '127.0.0.1' });
  return { app, port: (app.server.address() as AddressInfo).port };
}
afterEach(async () => {
  await Promise.all(apps.splice(0).map((app) => app.close()));
});

function open(port: number, query = '', type = 'application/x-ndjson'): ClientRequest {
  const path = `/v1/verify/batch${query}`;
  return httpRequest({ port, host: '127.0.0.1', method: 'POST', path, headers: { 'content-type': type } });
}
async function answered(request: ClientRequest): Promise<IncomingMessage> {
  const [response] = (await once(request, 'response')) as [IncomingMessage];
  return response;
}
async function linesOf(response: IncomingMessage): Promise<any[]> {
  const lines: unknown[] = [];
  for await (const line of createInterface({ input: response })) lines.push(JSON.parse(line));
  return lines;
}
/** Until it is so, within five seconds. */
async function until(isSo: () => boolean): Promise<void> {
  for (let tries = 0; !isSo() && tries < 250; tries += 1) await wait(20);
  expect(isSo()).toBe(true);
}

/** Bytes in use after collection, buffers included, of service and caller together. */
function heldMemory(): number {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

/** Judged in about a millisecond: a pack without anything that rules ask for. */
const bare = {
  elements: [{ id: 'pack', kind: 'accumulator', nodes: ['p', 'n'], zone: 'container', voltage: 400 }],
};

describe('a batch of 5000 lines, one in a hundred of them bad', { timeout: 240_000 }, () => {
  it('is answered line by line, in order, with its own ids', async () => {
    const count = 5000;
    const bad = [
      'not json',
      '{"circuit":{"elements":[]},"ruleset":"student-ev-2020"}',
      '{"id":"x"',
      `"${'x'.repeat(1_048_600)}"`,
      '{"row":{"arrangement":"none such"},"ruleset":"student-ev-2020"}',
    ];
    const isBad = (index: number) => index % 100 === 37;
    // Every thousandth a whole car, so that lines differ in what they cost by a factor of fifty.
    const line = (index: number) => {
      if (isBad(index)) return bad[Math.floor(index / 100) % bad.length] ?? '';
      const subject = index % 1000 === 500 ? { row: exampleRows[0] } : { circuit: bare };
      return JSON.stringify({ id: `car ${index}`, ...subject, ruleset: 'student-ev-2020' });
    };
    const { port, app } = await start({});
    const request = open(port);
    const sent = (async () => {
      for (let index = 0; index < count; index += 1) {
        // Blank lines are nobody's.
        const blank = index % 250 === 0 ? '\r\n  \n' : '';
        if (!request.write(`${blank}${line(index)}\n`)) await once(request, 'drain');
      }
      request.end();
    })();
    const answers = await linesOf(await answered(request));
    await sent;

    const end = answers.pop();
    expect(answers.map(({ index }) => index)).toEqual(Array.from({ length: count }, (_, index) => index));
    for (const { index, id, status, verdict, problem } of answers) {
      if (isBad(index)) {
        expect(status).toBeGreaterThanOrEqual(400);
        expect(problem.status).toBe(status);
        expect(id).toBeNull();
      } else {
        expect([id, status]).toEqual([`car ${index}`, 200]);
        expect(verdict).toBe(index % 1000 === 500 ? 'no-violation-found' : 'violation-found');
      }
    }
    expect(end).toEqual({
      summary: { count, violationFound: 4945, undetermined: 0, noViolationFound: 5, errors: 50 },
    });
    expect(app.batchDesk.count).toBe(0);
  });
});

describe('a stream', () => {
  it('is answered while it is sent', async () => {
    const { port } = await start({ workerFile: STUB, threads: 1 });
    const request = open(port);
    request.write('"first"\n');
    const response = await answered(request);
    const lines = createInterface({ input: response })[Symbol.asyncIterator]();
    expect(JSON.parse((await lines.next()).value as string)).toMatchObject({ index: 0, status: 200 });
    request.write('"second"\n"third, not complete');
    expect(JSON.parse((await lines.next()).value as string)).toMatchObject({ index: 1 });
    request.end('"');
    expect(JSON.parse((await lines.next()).value as string)).toMatchObject({ index: 2 });
    expect(JSON.parse((await lines.next()).value as string)).toMatchObject({ summary: { count: 3 } });
    expect((await lines.next()).done).toBe(true);
  });

  it('of many lines is never held as a whole', { timeout: 60_000 }, async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 2 });
    const judge = app.batchPool.judge.bind(app.batchPool);
    let underWay = 0;
    let [mostUnderWay, largest, judged] = [0, 0, 0];
    // Not a spy: it would remember what it was called with, which is the whole batch.
    app.batchPool.judge = async (...call) => {
      underWay += 1;
      mostUnderWay = Math.max(mostUnderWay, underWay);
      largest = Math.max(largest, call[0].length);
      judged += call[0].length;
      try {
        return await judge(...call);
      } finally {
        underWay -= 1;
      }
    };
    const request = open(port);
    const count = 100_000;
    const sent = (async () => {
      const some = `${JSON.stringify({ circuit: 'x'.repeat(200) })}\n`.repeat(100);
      for (let index = 0; index < count; index += 100) if (!request.write(some)) await once(request, 'drain');
      request.end();
    })();
    let lines = 0;
    let last = '';
    const held: number[] = [];
    for await (const line of createInterface({ input: await answered(request) })) {
      lines += 1;
      last = line;
      if (lines % 5000 === 0) held.push(heldMemory());
    }
    await sent;
    expect(lines).toBe(count + 1);
    expect(JSON.parse(last)).toMatchObject({ summary: { count } });
    expect([judged, largest <= 16]).toEqual([count, true]);
    expect(mostUnderWay).toBeLessThanOrEqual(app.batchPool.width);
    // What is on its way at one look may be much on a busy machine, so the least of several counts. The 60 000 lines between the
    // two groups of looks are 14 MiB, their answers as much again.
    expect(Math.min(...held.slice(-5)) - Math.min(...held.slice(2, 7))).toBeLessThan(8 * 2 ** 20);
  });

  it('with a runaway line answers for it, and meanwhile works on the others', async () => {
    const { port } = await start({ workerFile: STUB, threads: 2, itemSeconds: 1 });
    const ready = open(port);
    ready.end('"a"\n'.repeat(10));
    await linesOf(await answered(ready));
    const runaway = open(port);
    runaway.end('"a"\n"loop"\n"c"\n"loop"\n"e"\n');
    const other = open(port);
    const began = performance.now();
    const running = answered(runaway).then(linesOf);
    // On two threads the runaway has one; who else calls has the other.
    other.end('"b"\n'.repeat(50));
    expect(await linesOf(await answered(other))).toHaveLength(51);
    const answers = await running;
    expect(answers.map(({ index, status }) => [index, status])).toEqual([
      [0, 200],
      [1, 422],
      [2, 200],
      [3, 422],
      [4, 200],
      [undefined, undefined],
    ]);
    expect(answers[1].problem.code).toBe('item-timeout');
    // Two runaways of a second each, a quarter late at most, and their threads started again.
    expect(performance.now() - began).toBeLessThan(8000);
  });

  it('with a runaway line goes on with the lines behind it', async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 2, itemSeconds: 2 });
    let judged = 0;
    const judge = app.batchPool.judge.bind(app.batchPool);
    app.batchPool.judge = async (...call) => {
      const results = await judge(...call);
      judged += results.length;
      return results;
    };
    const ready = open(port);
    ready.end('"a"\n'.repeat(10));
    await linesOf(await answered(ready));
    judged = 0;
    const request = open(port);
    const began = performance.now();
    request.end(`"loop"\n${'"b"\n'.repeat(25)}`);
    const running = answered(request).then(linesOf);
    await until(() => judged === 25);
    // The runaway is still in hand.
    expect(performance.now() - began).toBeLessThan(1900);
    const answers = await running;
    expect(answers.map(({ index }) => index)).toEqual([...Array(26).keys(), undefined]);
    expect(answers[0].problem.code).toBe('item-timeout');
  });

  it('that nobody reads is worked on no further than answers may wait', { timeout: 60_000 }, async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 1 });
    const judge = vi.spyOn(app.batchPool, 'judge');
    const request = open(port);
    const response = answered(request);
    const some = '"long"\n'.repeat(1000);
    // 20 000 answers of 10 kB would be 200 MB.
    for (let index = 0; index < 20; index += 1) request.write(some);
    request.end();
    await response;
    let before = -1;
    while (judge.mock.calls.length !== before) {
      before = judge.mock.calls.length;
      await wait(500);
    }
    const judged = judge.mock.calls.reduce((sum, [items]) => sum + items.length, 0);
    expect(judged).toBeGreaterThan(100);
    expect(judged).toBeLessThan(5000);
    request.destroy();
    await until(() => app.batchDesk.count === 0);
  });

  it('ends with its connection', async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 2, itemSeconds: 60 });
    const judge = vi.spyOn(app.batchPool, 'judge');
    const request = open(port);
    request.on('error', () => undefined);
    // The first is answered, the others never come to an end.
    request.write(`"a"\n`);
    await answered(request);
    request.write('"loop"\n'.repeat(200));
    await until(() => judge.mock.calls.length > 4);
    expect(app.batchDesk.count).toBe(1);
    request.destroy();
    await until(() => app.batchDesk.count === 0);
    const calls = judge.mock.calls.length;
    expect(calls).toBeLessThan(30);
    await wait(100);
    expect(judge.mock.calls.length).toBe(calls);
    // The threads are free again.
    const next = open(port);
    next.end('"b"\n');
    expect(await linesOf(await answered(next))).toHaveLength(2);
  });

  it('ends with its connection also where one summary was wanted of all', async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 1, itemSeconds: 60 });
    const request = open(port, '?detail=summary');
    request.on('error', () => undefined);
    request.write('"loop"\n');
    await until(() => app.batchDesk.count === 1);
    await wait(300);
    request.destroy();
    await until(() => app.batchDesk.count === 0);
  });

  it('beyond the number worked on at once is turned away', async () => {
    const { port } = await start({ workerFile: STUB, threads: 1, batches: 1 });
    const first = open(port);
    first.write('"a"\n');
    const running = await answered(first);
    const second = open(port);
    second.end('"b"\n');
    const refused = await answered(second);
    expect([refused.statusCode, refused.headers['retry-after']]).toEqual([503, '10']);
    const [problem] = await linesOf(refused);
    expect(problem).toMatchObject({ code: 'busy', status: 503 });
    first.end();
    expect(await linesOf(running)).toHaveLength(2);
    const third = open(port);
    third.end('"c"\n');
    expect((await answered(third)).statusCode).toBe(200);
  });

  it('may arrive as slowly as it is worked on, unlike any other request', async () => {
    const { port, app } = await start({ workerFile: STUB, threads: 1 });
    // What the server says of a connection whose request has not arrived within its time.
    const late = Object.assign(new Error('late'), { code: 'ERR_HTTP_REQUEST_TIMEOUT' });
    const socketOfNext = () =>
      new Promise<Socket>((resolve) => app.server.once('request', ({ socket }: IncomingMessage) => resolve(socket)));

    const batchSocket = socketOfNext();
    const request = open(port);
    request.write('"a"\n');
    const response = await answered(request);
    app.server.emit('clientError', late, await batchSocket);
    request.end('"b"\n');
    expect(await linesOf(response)).toHaveLength(3);

    const otherSocket = socketOfNext();
    const other = httpRequest({
      port,
      host: '127.0.0.1',
      method: 'POST',
      path: '/v1/verify',
      headers: { 'content-type': 'application/json' },
    });
    other.write('{');
    app.server.emit('clientError', late, await otherSocket);
    expect((await answered(other)).statusCode).toBe(408);
  });
});
