import { spawn } from 'node:child_process';
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FastifyInstance } from 'fastify';
import request from 'supertest';
import { buildApp } from '../../src/http/build-app.js';
import { readConfiguration } from '../../src/http/configuration.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';

describe('over a real socket', () => {
  let app: FastifyInstance;
  beforeAll(async () => {
    app = await buildApp();
    await app.listen({ port: 0 });
  });
  afterAll(() => app.close());

  it('verifies a circuit', async () => {
    const body = requestExamples['verifyCircuit']?.['smallCar']?.value as object;
    const answer = await request(app.server)
      .post('/v1/verify')
      .send(body)
      .expect(200)
      .expect('content-type', /^application\/json/);
    expect(['violation-found', 'undetermined', 'no-violation-found']).toContain(answer.body.verdict);
  });

  it('refuses a body that is too large while it arrives', async () => {
    await request(app.server)
      .post('/v1/verify')
      .set('content-type', 'application/json')
      .send(`"${'x'.repeat(1_048_600)}"`)
      .expect(413);
  });

  it('refuses a body that is shorter than it says', async () => {
    const { port } = app.server.address() as { port: number };
    const socket = connect(port, '127.0.0.1');
    socket.end('POST /v1/verify HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 9\r\n\r\n{}');
    const chunks: Buffer[] = [];
    for await (const chunk of socket) chunks.push(chunk as Buffer);
    expect(Buffer.concat(chunks).toString()).not.toMatch(/^HTTP\/1\.1 5/);
    await request(app.server).get('/healthz').expect(200);
  });

  it('answers what is no HTTP with a problem', async () => {
    const { port } = app.server.address() as { port: number };
    const socket = connect(port, '127.0.0.1');
    socket.write('this is not a request\r\n\r\n');
    const chunks: Buffer[] = [];
    for await (const chunk of socket) chunks.push(chunk as Buffer);
    const text = Buffer.concat(chunks).toString();
    expect(text).toMatch(/^HTTP\/1\.1 400 /);
    expect(JSON.parse(text.slice(text.indexOf('{')))).toMatchObject({ status: 400, code: 'bad-request' });
  });
});

describe('the process', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)(
    'listens on a free port, answers, and ends in order on %s',
    async (signal) => {
      const child = spawn(process.execPath, ['--import', 'tsx', 'src/main.ts'], {
        env: { ...process.env, PORT: '0', HOST: '127.0.0.1', LOG_LEVEL: 'info' },
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      let log = '';
      const address = new Promise<string>((resolve, reject) => {
        child.stdout.on('data', (chunk: Buffer) => {
          log += chunk.toString();
          const found = /http:\/\/127\.0\.0\.1:\d+/.exec(log);
          if (found !== null) resolve(found[0]);
        });
        child.once('exit', () => reject(new Error(`ended early: ${log}`)));
      });
      const answer = await fetch(`${await address}/healthz`);
      expect(await answer.json()).toMatchObject({ status: 'ok' });
      const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
      child.kill(signal);
      expect(await ended).toBe(0);
      expect(log).toContain('"closed"');
    },
  );

  it('refuses a configuration that makes no sense', () => {
    expect(readConfiguration({})).toEqual({ host: '127.0.0.1', port: 8080, logLevel: 'info' });
    expect(readConfiguration({ HOST: '0.0.0.0', PORT: '0', LOG_LEVEL: 'warn' })).toEqual({
      host: '0.0.0.0',
      port: 0,
      logLevel: 'warn',
    });
    for (const PORT of ['', 'http', '-1', '65536', '80.5', '123456'])
      expect(() => readConfiguration({ PORT })).toThrow(/PORT/);
    expect(() => readConfiguration({ LOG_LEVEL: 'loud' })).toThrow(/LOG_LEVEL/);
  });
});
