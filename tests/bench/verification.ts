import { readFileSync } from 'node:fs';
import Fastify from 'fastify';
import { buildApp } from '../../src/http/build-app.js';
import { rulesetById } from '../../src/rules/index.js';
import { readCircuit } from '../../src/circuit/index.js';
import { verifyCircuit } from '../../src/verify/verify-circuit.js';
import { perCall } from './measure.js';

interface Request {
  readonly circuit: { readonly elements: { readonly id: string }[] };
  readonly ruleset: string;
}

const CALLS = 20;

/** One whole verification in process, over HTTP, and a bare route that parses the same body and stringifies the same answer. */
export async function verification(): Promise<void> {
  console.log('one verification (values distinct each time, no cache)');
  for (const id of ['sound-permanent-discharge', 'sound-rear-pack']) {
    const file = new URL(`../../openapi/examples/${id}.json`, import.meta.url);
    const { request } = JSON.parse(readFileSync(file, 'utf8')) as { request: Request };
    let turn = 0;
    const inProcess = (): void => {
      turn += 1;
      const reading = readCircuit(varied(request, turn).circuit, '#/circuit');
      const ruleset = rulesetById(request.ruleset);
      if (!('circuit' in reading) || ruleset === undefined) throw new Error(`${id} cannot be read`);
      verifyCircuit({ circuit: reading.circuit, ruleset });
    };
    const alone = perCall(inProcess, 5, 0.5);
    const { service, bare } = await overHttp(request);
    console.log(
      `  ${id.padEnd(28)}${(1 / alone).toFixed(0).padStart(6)} a second in process; over HTTP ${(alone / service).toFixed(2)} of that; a bare route with the same bytes takes ${(bare / service).toFixed(3)} of the time`,
    );
  }
}

async function overHttp(request: Request): Promise<{ service: number; bare: number }> {
  const app = await buildApp();
  const plain = Fastify();
  const answer = (await app.inject({ method: 'POST', url: '/v1/verify', payload: request })).json<object>();
  plain.post('/', (_, reply) => reply.header('content-type', 'application/json').send(JSON.stringify(answer)));
  const services = [
    await app.listen({ port: 0, host: '127.0.0.1' }),
    await plain.listen({ port: 0, host: '127.0.0.1' }),
  ];
  const paths = [`${services[0] ?? ''}/v1/verify`, `${services[1] ?? ''}/`] as const;
  const times: number[][] = [[], []];
  for (const path of paths) for (let call = 0; call < CALLS; call += 1) await post(path, varied(request, call));
  for (let round = 0; round < 5; round += 1) {
    for (const [k, path] of paths.entries()) {
      const start = performance.now();
      for (let call = 0; call < CALLS; call += 1) await post(path, varied(request, round * CALLS + call));
      times[k]?.push((performance.now() - start) / 1e3 / CALLS);
    }
  }
  await app.close();
  await plain.close();
  const middle = (values: number[] = []): number =>
    values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
  return { service: middle(times[0]), bare: middle(times[1]) };
}

async function post(url: string, body: unknown): Promise<void> {
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(`${url} answered ${String(response.status)}`);
  await response.text();
}

/** The same car with its link capacitor a little different, so that nothing could be remembered. */
function varied(request: Request, turn: number): Request {
  const scale = 1 + turn * 1e-6;
  const elements = request.circuit.elements.map((element) => {
    if (!('capacitance' in element) || typeof element.capacitance !== 'object' || element.capacitance === null)
      return element;
    if (
      !('nominal' in element.capacitance) ||
      typeof element.capacitance.nominal !== 'number' ||
      !('tolerance' in element.capacitance)
    )
      return element;
    return { ...element, capacitance: { ...element.capacitance, nominal: element.capacitance.nominal * scale } };
  });
  return { ...request, circuit: { ...request.circuit, elements } };
}
