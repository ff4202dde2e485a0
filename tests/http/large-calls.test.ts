import { once } from 'node:events';
import { type ClientRequest, type IncomingMessage, request as httpRequest } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import type { FastifyInstance } from 'fastify';
import { afterEach, describe, expect, it } from 'vitest';
import { buildApp } from '../../src/http/build-app.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import type { PoolOptions } from '../../src/http/pool/pool-plugin.js';
import { largeRequest } from './large-request.js';

const STUB = new URL('./stub-worker.mjs', import.meta.url);
const apps: FastifyInstance[] = [];
afterEach(async () => {
  await Promise.all(apps.splice(0).map((app) => app.close()));
});

async function service(work: PoolOptions): Promise<FastifyInstance> {
  const app = await buildApp({ work });
  apps.push(app);
  return app;
}
const post = (app: FastifyInstance, url: string, payload: object) => app.inject({ method: 'POST', url, payload });

const large = largeRequest();
const unruled = { circuit: large.circuit };
/** Neither can be answered but by a thread of the stub, which says so. */
const looping = { ...large, circuit: { ...large.circuit, title: 'loop' } };

describe('a large call', { timeout: 120_000 }, () => {
  it('is answered with the same bytes by a thread as without one', async () => {
    const there = await service({ threads: 1 });
    const here = await service({ threads: 0 });
    const stock = [{ resistance: '1 kΩ', power: 50 }];
    const several = { ...unruled, rulesets: ['student-ev-2020'] };
    const probes = Array.from({ length: 20 }, (_, k) => ({ id: `p${k}`, temperature: 'precharge-resistor' }));
    const run = { ...unruled, duration: 1, samples: 5000, probes };
    for (const [url, payload] of [
      ['/v1/verify', large],
      ['/v1/verify?format=markdown', several],
      ['/v1/findings', several],
      ['/v1/limits', { ...large, stock }],
      ['/v1/compare', { before: large.circuit, after: large.circuit, ruleset: 'student-ev-2020' }],
      ['/v1/transients', run],
    ] as const) {
      const [one, other] = [await post(there, url, payload), await post(here, url, payload)];
      expect(one.statusCode, url).toBe(200);
      expect(one.body, url).toBe(other.body);
      expect(one.headers['content-type'], url).toBe(other.headers['content-type']);
    }
    expect(there.threads.running).toBe(true);
  });

  it('whose circuit cannot be computed has the same problem either way', async () => {
    const { elements } = large.circuit;
    const volts = (nominal: number) => ({ min: nominal, nominal, max: nominal });
    const packs = [380, 400].map((nominal, k) => ({
      id: `loop-${k}`,
      kind: 'accumulator',
      zone: 'container',
      nodes: ['lp', 'ln'],
      voltage: volts(nominal),
      resistance: 0,
    }));
    const probes = Array.from({ length: 20 }, (_, k) => ({ id: `p${k}`, temperature: 'precharge-resistor' }));
    const payload = { circuit: { elements: [...elements, ...packs] }, duration: 1, samples: 5000, probes };
    const [one, other] = await Promise.all(
      [1, 0].map(async (threads) => post(await service({ threads }), '/v1/transients', payload)),
    );
    expect([one?.statusCode, other?.statusCode]).toEqual([422, 422]);
    expect(one?.json().errors).toEqual(other?.json().errors);
    expect(one?.json().errors[0].code).toBe('ideal-loop');
  });

  it('that fills its thread’s memory is too costly, which is no fault of the service, and the next is answered', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 60 });
    const hoarding = { ...large, circuit: { ...large.circuit, title: 'hoard' } };
    const answer = await post(app, '/v1/verify', hoarding);
    expect(answer.statusCode).toBe(422);
    expect(answer.json()).toMatchObject({
      code: 'too-costly',
      detail: expect.stringMatching(/more memory .* was ended\./),
    });
    expect((await post(app, '/v1/verify', large)).body).toBe('by a thread');
  });

  it('does not keep others waiting, and starts no thread where it is small', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 60 });
    const small = requestExamples['verifyCircuit']?.['smallCar']?.value as object;
    expect((await post(app, '/v1/verify', small)).statusCode).toBe(200);
    expect(app.threads.running).toBe(false);
    const { request } = await sent(app, looping);
    expect((await app.inject('/healthz')).statusCode).toBe(200);
    expect((await post(app, '/v1/verify', small)).statusCode).toBe(200);
    request.destroy();
  });

  it('that takes too long is ended, and told what is costly about it', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 0.3 });
    const answer = await post(app, '/v1/verify', looping);
    expect(answer.statusCode).toBe(422);
    expect(answer.json()).toMatchObject({ code: 'call-timeout', type: '/problems/call-timeout' });
    expect(answer.json().detail).toMatch(/more than 0\.3 s.*There are 1\d\d elements: put/);
    expect((await post(app, '/v1/verify', large)).body).toBe('by a thread');
  });

  it('ends with its connection, be it begun or not, and makes room', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 60, callsPerThread: 2 });
    const [first, second] = [await sent(app, looping), await sent(app, looping)];
    expect((await post(app, '/v1/verify', large)).statusCode).toBe(503);
    second.request.destroy();
    first.request.destroy();
    await until(async () => (await post(app, '/v1/verify', large)).statusCode === 200);
  });

  it('is turned away where as many are under way as are let in, and may come again', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 1, callsPerThread: 2 });
    const answers = await Promise.all(Array.from({ length: 10 }, () => post(app, '/v1/verify', looping)));
    const [ended, busy] = [422, 503].map((status) => answers.filter(({ statusCode }) => statusCode === status));
    expect([ended?.length, busy?.length]).toEqual([2, 8]);
    expect(busy?.[0]?.json()).toMatchObject({ code: 'busy' });
    expect(Number(busy?.[0]?.headers['retry-after'])).toBeGreaterThan(0);
    expect((await post(app, '/v1/verify', large)).statusCode).toBe(200);
  });

  it('is turned away where no thread comes free in time, and may come again', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 60, callWaitSeconds: 1 });
    await app.threads.start();
    const { request } = await sent(app, looping);
    const answer = await post(app, '/v1/verify', large);
    expect(answer.statusCode).toBe(503);
    expect(answer.json()).toMatchObject({
      code: 'busy',
      detail: expect.stringMatching(/^No thread .* 1 s; .*not begun/),
    });
    expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0);
    request.destroy();
    await until(async () => (await post(app, '/v1/verify', large)).statusCode === 200);
  });

  it('has, once it is begun, its own time and not what is left of the wait', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 3, callWaitSeconds: 1 });
    await app.threads.start();
    expect((await post(app, '/v1/verify', looping)).json()).toMatchObject({
      code: 'call-timeout',
      detail: expect.stringMatching(/more than 3 s/),
    });
  });

  it('waits for its turn and not for the end of a batch that was there before it', async () => {
    const app = await service({ threads: 1, workerFile: STUB, itemSeconds: 0.5 });
    await app.threads.start();
    const order: string[] = [];
    const headers = { 'content-type': 'application/x-ndjson' };
    const payload = '"loop"\n'.repeat(4);
    const batch = app
      .inject({ method: 'POST', url: '/v1/verify/batch', headers, payload })
      .then(() => order.push('batch'));
    await wait(50);
    await post(app, '/v1/verify', large).then(() => order.push('call'));
    await batch;
    expect(order).toEqual(['call', 'batch']);
  });

  it('is a mistake of ours, and tells nothing of it, where its thread dies', async () => {
    const app = await service({ threads: 1, workerFile: STUB });
    const answer = await post(app, '/v1/verify', { ...large, circuit: { ...large.circuit, title: 'die' } });
    expect([answer.statusCode, answer.json().code]).toEqual([500, 'internal-error']);
    expect(answer.body).not.toMatch(/exit|worker|thread/i);
    expect((await post(app, '/v1/verify', large)).statusCode).toBe(200);
  });

  it('is answered without threads where none can be started', async () => {
    const app = await service({ threads: 1, workerFile: new URL('./no-such-worker.mjs', import.meta.url) });
    expect((await post(app, '/v1/findings', large)).statusCode).toBe(200);
  });

  it('is ended with the service, after a while', async () => {
    const app = await service({ threads: 1, workerFile: STUB, callSeconds: 0.5 });
    const answered = post(app, '/v1/verify', looping);
    await wait(100);
    const closed = app.close();
    expect((await answered).json().code).toBe('call-timeout');
    await closed;
  });
});

/** A request on a connection of its own, once the service has taken it in. */
async function sent(app: FastifyInstance, body: object): Promise<{ request: ClientRequest }> {
  if (!app.server.listening) await app.listen({ port: 0, host: '127.0.0.1' });
  const { port } = app.server.address() as AddressInfo;
  const headers = { 'content-type': 'application/json' };
  const request = httpRequest({ port, host: '127.0.0.1', method: 'POST', path: '/v1/verify', headers });
  request.on('error', () => undefined);
  const arrived = once(app.server, 'request') as Promise<[IncomingMessage]>;
  request.end(JSON.stringify(body));
  const [incoming] = await arrived;
  await once(incoming, 'end');
  await wait(50);
  return { request };
}

/** Until it is so, within ten seconds. */
async function until(isSo: () => Promise<boolean>): Promise<void> {
  for (let tries = 0; tries < 200; tries += 1) {
    if (await isSo()) return;
    await wait(50);
  }
  expect.fail('it never was so');
}
