import Fastify from 'fastify';
import { readCircuit } from '../../src/circuit/index.js';
import { rulesetById } from '../../src/rules/index.js';
import { verifyCircuit } from '../../src/verify/verify-circuit.js';
import { alternateRuns, shown, times } from './measure.js';
import { serve } from './serve.js';
import { exampleRequest, type Request, varied } from './varied.js';

/** Calls of one measurement. */
const CALLS = 25;
/** Before anything is counted, of each way: the service is a process of its own, and compiles for about this long. */
const WARM = 600;

/** One whole verification in process, over HTTP, and a bare route that parses the same body and stringifies the same answer. */
export async function verification(): Promise<void> {
  console.log('one verification (values distinct each time; medians of five runs in turn, least and most in brackets)');
  for (const id of ['sound-permanent-discharge', 'sound-rear-pack']) {
    const request = exampleRequest(id);
    const service = await serve(0);
    const bare = Fastify({ bodyLimit: 2 ** 20 });
    try {
      const overHttp = `${service.address}/v1/verify`;
      const answer: unknown = JSON.parse(await post(overHttp, request));
      bare.post('/', (_, reply) => reply.header('content-type', 'application/json').send(JSON.stringify(answer)));
      const plain = await bare.listen({ port: 0, host: '127.0.0.1' });
      const ways = {
        here: () => Promise.resolve(verifiedHere(varied(request))),
        http: () => post(overHttp, varied(request)),
        bare: () => post(plain, varied(request)),
      };
      for (const way of Object.values(ways)) await rateOf(way, WARM);

      const { first, second, ratio } = await alternateRuns(
        () => rateOf(ways.here),
        () => rateOf(ways.http),
      );
      console.log(`  ${id}: in process ${shown(first)} a second, over HTTP ${shown(second)}: ${times(ratio)}`);
      const against = await alternateRuns(
        () => rateOf(ways.bare),
        () => rateOf(ways.http),
      );
      console.log(
        `  a bare route with the same bytes ${shown(against.first)} a second: the service against it ${times(against.ratio, 3)}`,
      );
    } finally {
      await bare.close();
      await service.stop();
    }
  }
}

async function rateOf(way: () => Promise<unknown>, calls = CALLS): Promise<number> {
  const start = performance.now();
  for (let call = 0; call < calls; call += 1) await way();
  return calls / ((performance.now() - start) / 1e3);
}

function verifiedHere(request: Request): unknown {
  const reading = readCircuit(request.circuit, '#/circuit');
  const ruleset = rulesetById(request.ruleset);
  if (!('circuit' in reading) || ruleset === undefined) throw new Error('the example cannot be read');
  return verifyCircuit({ circuit: reading.circuit, ruleset });
}

async function post(url: string, body: unknown): Promise<string> {
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(`${url} answered ${String(response.status)}`);
  return response.text();
}
