import { connect, type Socket } from 'node:net';
import { PassThrough } from 'node:stream';
import Fastify from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CircuitFault, faultCodes } from '../../src/circuit/index.js';
import { answerClientError } from '../../src/http/client-error.js';
import { answers } from '../../src/http/plugins/answers.js';
import { commonHeaders } from '../../src/http/plugins/common-headers.js';
import { problems } from '../../src/http/plugins/problems.js';
import { problemCodes, problemTable } from '../../src/http/problems/problem-table.js';
import { queryCodes } from '../../src/http/problems/query-codes.js';
import { requestFaultCodes } from '../../src/verify/fault-codes.js';
import { buildApp } from '../../src/http/build-app.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { largeRequest } from './large-request.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

const json = { 'content-type': 'application/json' };
const send = (payload: string, headers: Record<string, string> = json) =>
  service.call({ method: 'POST', url: '/v1/verify', payload, headers }).then((answer) => String(answer.json.code));
const get = (url: string, headers: Record<string, string> = {}) =>
  service.call({ url, headers }).then((answer) => String(answer.json.code));

/** Writes bytes to a real server and answers what comes back until it hangs up. */
async function raw(port: number, bytes: string): Promise<string> {
  const socket = connect(port, '127.0.0.1');
  socket.write(bytes);
  return text(socket);
}
async function text(socket: Socket): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of socket) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString('utf8');
}
const codeIn = (response: string) => /"code":"([\w-]+)"/.exec(response)?.[1] ?? response;

const batch = (payload: string, type: string) =>
  service.call({ method: 'POST', url: '/v1/verify/batch', payload, headers: { 'content-type': type } });
const firstCode = (answer: { json: { results: { problem?: { code: string } }[] } }) =>
  String(answer.json.results[0]?.problem?.code);

/** For each code of the table, a request that is answered with it. */
const provoked: Record<string, () => Promise<string>> = {
  'malformed-json': () => send('{'),
  'empty-body': () => send(''),
  'duplicate-key': () => send('{"a":1,"a":2}'),
  'forbidden-key': () => send('{"__proto__":1}'),
  'too-deep': () => send('['.repeat(99)),
  'bad-request': () => get('/%zz'),
  'invalid-query': () => get('/healthz?x'),
  'not-found': () => get('/nothing'),
  'method-not-allowed': () => get('/v1/verify'),
  'not-acceptable': () => get('/healthz', { accept: 'image/png' }),
  'request-timeout': async () => {
    // The server's own timer takes half a minute; this is what it calls when it has run out.
    const socket = new PassThrough();
    answerClientError(
      Object.assign(new Error('late'), { code: 'ERR_HTTP_REQUEST_TIMEOUT' }),
      socket as unknown as Socket,
    );
    return codeIn(await text(socket as unknown as Socket));
  },
  'body-too-large': () => send(`"${'x'.repeat(1_100_000)}"`),
  'uri-too-long': () => get(`/problems/${'x'.repeat(500)}`),
  'unsupported-media-type': () => send('{}', { 'content-type': 'text/plain' }),
  'invalid-request': () => send('{}'),
  'too-costly': async () => {
    const value = requestExamples['computeTransients']?.['rise']?.value as object;
    const answer = await service.post('/v1/transients', { ...value, samples: 1e6 });
    return String(answer.json.code);
  },
  'headers-too-large': async () => {
    const app = await buildApp();
    await app.listen({ port: 0 });
    const { port } = app.server.address() as { port: number };
    const answer = await raw(port, `GET /healthz HTTP/1.1\r\nHost: x\r\nX-Long: ${'x'.repeat(40_000)}\r\n\r\n`);
    await app.close();
    expect(answer).toMatch(/^HTTP\/1\.1 431 .*\r\ncontent-type: application\/problem\+json/i);
    return codeIn(answer);
  },
  'internal-error': async () => (await failing(() => ({ value: Number.NaN }))).code,
  'malformed-csv': () => batch('a,b\n1,2\n', 'text/csv').then((answer) => String(answer.json.code)),
  'line-too-long': () => batch(`["${'x'.repeat(1_100_000)}"]`, 'application/json').then(firstCode),
  'item-timeout': async () => {
    // A thread shows each item that it begins; this one has a thousandth of a second for it.
    const slow = await startService({ work: { threads: 1, itemSeconds: 0.001 } });
    await slow.app.threads.start();
    const value = requestExamples['verifyBatch']?.['twoCars']?.value;
    const code = firstCode(await slow.post('/v1/verify/batch', value));
    await slow.app.close();
    return code;
  },
  'call-timeout': async () => {
    const slow = await startService({ work: { threads: 1, callSeconds: 0.001 } });
    const answer = await slow.post('/v1/verify', largeRequest());
    await slow.app.close();
    return String(answer.json.code);
  },
  busy: async () => {
    const full = await startService({ work: { threads: 0, batches: 0 } });
    const answer = await full.post('/v1/verify/batch', []);
    await full.app.close();
    return String(answer.json.code);
  },
  'shutting-down': async () => {
    const app = await buildApp();
    await app.listen({ port: 0 });
    const { port } = app.server.address() as { port: number };
    const socket = connect(port, '127.0.0.1');
    // Half a request keeps the connection busy, so that closing has to wait for it.
    socket.write('POST /v1/verify HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 2\r\n\r\n{');
    await new Promise((resolve) => app.server.once('request', resolve));
    const closed = app.close();
    socket.write('}GET /readyz HTTP/1.1\r\nHost: x\r\n\r\n');
    const answer = await text(socket);
    await closed;
    expect(answer).toContain('HTTP/1.1 422');
    return codeIn(answer.slice(answer.lastIndexOf('HTTP/1.1')));
  },
};

/** The answer of a route that does what it must not. */
async function failing(handler: () => unknown) {
  const app = Fastify();
  await app.register(commonHeaders);
  await app.register(problems);
  await app.register(answers);
  app.get('/', async () => handler());
  const response = await app.inject('/');
  await app.close();
  return { status: response.statusCode, body: response.body, code: codeIn(response.body) };
}

describe('the table of problems', () => {
  it.each(problemCodes)('%s is emitted', async (code) => {
    expect(await provoked[code]?.()).toBe(code);
  });

  it('is complete: whatever is provoked is in it', () => {
    expect(Object.keys(provoked).sort()).toEqual([...problemCodes].sort());
  });

  it.each(problemCodes)('%s has a page at its type, as JSON and as HTML', async (code) => {
    const page = await service.call(`/problems/${code}`);
    expect(page.json).toMatchObject({ code, kind: 'problem', ...problemTable[code] });
    const html = await service.call({ url: `/problems/${code}`, headers: { accept: 'text/html' } });
    expect(html.text).toContain(`<code>${code}</code>`);
    expect(html.headers['content-type']).toMatch(/^text\/html/);
  });

  it('uses statuses that HTTP has for what clients or servers do wrong', () => {
    for (const { status } of Object.values(problemTable)) expect(status >= 400 && status <= 599).toBe(true);
  });
});

describe('codes', () => {
  it('are listed, each once, and each has a page', async () => {
    const { json: list } = await service.call('/problems');
    const codes = list.codes.map((one: { code: string }) => one.code);
    expect(new Set(codes).size).toBe(codes.length);
    const all = [problemTable, queryCodes, requestFaultCodes, faultCodes].flatMap((table) => Object.keys(table));
    expect(codes.toSorted()).toEqual([...new Set(all)].sort());
    for (const code of codes) expect((await service.call(`/problems/${code}`)).status).toBe(200);
  });

  it('mean one thing: no two tables share one, but for work beyond the bounds, which is both', () => {
    const all = [problemTable, queryCodes, requestFaultCodes, faultCodes].flatMap((table) => Object.keys(table));
    expect(all.filter((code, index) => all.indexOf(code) !== index)).toEqual(['too-costly']);
  });

  it('have titles without and explanations with a full stop', () => {
    for (const row of [problemTable, queryCodes, requestFaultCodes, faultCodes].flatMap((table) =>
      Object.values<{ title: string; explanation: string }>(table),
    )) {
      expect(row.title).not.toMatch(/\.$/);
      expect(row.explanation).toMatch(/\.$/);
    }
  });
});

describe('faults that only show once a circuit runs', () => {
  const exact = (nominal: number) => ({ nominal, tolerance: 0 });
  const volts = (nominal: number) => ({ min: nominal, nominal, max: nominal });
  const source = { kind: 'accumulator', zone: 'container' };
  /** Two sources of 400 V and 380 V at the same nodes, the higher one named last. */
  const loop = [
    { ...source, id: 'b', nodes: ['p', 'n'], voltage: volts(380), resistance: 0 },
    { ...source, id: 'a', nodes: ['p', 'n'], voltage: volts(400), resistance: 0 },
  ];
  /** Asleep the load lets the link rise to 400 V, awake it pulls it to 200 V: at 300 V it can be neither. */
  const chatter = [
    { ...source, id: 'a', nodes: ['p', 'n'], voltage: volts(400) },
    { id: 'r', kind: 'resistor', zone: 'vehicle', nodes: ['p', 'x'], resistance: exact(1000) },
    { id: 'c', kind: 'capacitor', zone: 'vehicle', nodes: ['x', 'n'], capacitance: exact(0.001) },
    {
      id: 'l',
      kind: 'load',
      zone: 'vehicle',
      nodes: ['x', 'n'],
      resistance: exact(1000),
      startsAbove: 300,
      stopsBelow: 300,
    },
  ];

  it.each([
    ['ideal-loop', loop, ['#/circuit/elements/0', '#/circuit/elements/1']],
    ['too-many-changes', chatter, ['#/circuit/elements/3']],
  ])('%s has its places in order, and a page', async (code, elements, places) => {
    const request = { circuit: { elements }, probes: [{ id: 'v', voltage: ['p', 'n'] }], sequence: [{ at: 0 }] };
    const { status, json: answer } = await service.post('/v1/transients', request);
    expect(status).toBe(422);
    expect(answer.errors.map((one: { code: string; pointer: string }) => [one.code, one.pointer])).toEqual(
      places.map((place) => [code, place]),
    );
    expect((await service.call(`/problems/${code}`)).json).toMatchObject({ code, kind: 'fault' });
  });
});

describe('a mistake of the service itself', () => {
  it.each<[string, () => unknown]>([
    ['a number that is none', () => ({ deep: [{ value: Number.NaN }] })],
    ['an infinite number', () => ({ value: Number.POSITIVE_INFINITY })],
    [
      'an exception',
      () => {
        throw new Error('secret inside');
      },
    ],
    [
      'something thrown that is no error',
      () => {
        throw Object.assign(new Error('odd'), { code: 7 });
      },
    ],
  ])('%s is a 500 that tells nothing of the inside', async (_name, handler) => {
    const { status, body, code } = await failing(handler);
    expect([status, code]).toEqual([500, 'internal-error']);
    expect(body).not.toMatch(/secret|RangeError|finite|odd/);
  });

  it('is not what a circuit that cannot be computed is', async () => {
    const fault = { pointer: '#/circuit/elements/0', code: 'ideal-loop', detail: 'A loop.' };
    const { status, body } = await failing(() => {
      throw new CircuitFault([fault]);
    });
    expect(status).toBe(422);
    expect(JSON.parse(body)).toMatchObject({ code: 'invalid-request', errors: [fault] });
  });
});
