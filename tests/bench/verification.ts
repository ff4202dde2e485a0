import Fastify from 'fastify';
import { readCircuit } from '../../src/circuit/index.js';
import { rulesetById } from '../../src/rules/index.js';
import { verifyCircuit } from '../../src/verify/verify-circuit.js';
import { alternateRuns, shown, times } from './measure.js';
import { serve } from './serve.js';
import { exampleRequest, type Request, varied } from './varied.js';

/** Calls of one measurement. */
const CALLS = 25;
/**
 * Calls under way at once over HTTP: while the service computes the one, its caller writes the next and reads the last. With one at a
 * time the service stands idle meanwhile, and it is the caller that is measured along with it.
 */
const UNDER_WAY = 2;
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
      for (const way of Object.values(ways)) await rateOf(way, 1, WARM);

      for (const underWay of [1, UNDER_WAY]) {
        const { first, second, ratio } = await alternateRuns(
          () => rateOf(ways.here, 1),
          () => rateOf(ways.http, underWay),
        );
        const against = await alternateRuns(
          () => rateOf(ways.bare, underWay),
          () => rateOf(ways.http, underWay),
        );
        console.log(
          `  ${id}, ${String(underWay)} under way: in process ${shown(first)} a second, over HTTP ${shown(second)}: ${times(ratio)}`,
        );
        console.log(
          `    a bare route with the same bytes ${shown(against.first)} a second: the service against it ${times(against.ratio, 3)}`,
        );
      }
    } finally {
      await bare.close();
      await service.stop();
    }
  }
}

/** Calls a second, so many of them under way at once. */
async function rateOf(way: () => Promise<unknown>, underWay: number, calls = CALLS): Promise<number> {
  const start = performance.now();
  let begun = 0;
  const caller = async (): Promise<void> => {
    while (begun < calls) {
      begun += 1;
      await way();
    }
  };
  await Promise.all(Array.from({ length: underWay }, caller));
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
