import { readFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../src/http/build-app.js';
import { busyThreads } from './busy-threads.js';
import { alternateRuns, type Spread, spreadOf } from './measure.js';

const EXAMPLE = new URL('../../openapi/examples/discharge-fused.json', import.meta.url);
/** Whole cars of one run; few, so that two dozen runs of them stay within seconds. */
const CARS = 12;
const FEW = 200;
const MANY = 2000;
/** One pack in so many light lines. */
const PACK_EVERY = 10;
/** ms between two looks at the memory. */
const LOOK = 250;

interface Request {
  readonly circuit: { readonly elements: readonly Readonly<Record<string, unknown>>[] };
  readonly ruleset: string;
}
const { request } = JSON.parse(readFileSync(EXAMPLE, 'utf8')) as { readonly request: Request };

interface Service {
  readonly app: FastifyInstance;
  readonly address: string;
}

/** Many cars in one stream: what threads bring, what a stream brings, what it needs of memory, and when it begins to answer. */
export async function batch(): Promise<void> {
  console.log(
    `a batch over HTTP (whole reports of ${String(CARS)} cars, values distinct; medians of five runs in turn)`,
  );
  const one = await serve(1);
  const two = await serve(2);
  try {
    const wholes: number[] = [];
    const firsts: number[] = [];
    const threads = await alternateRuns(
      async () => CARS / (await batchRun(one, cars())).whole,
      async () => {
        const { first, whole } = await batchRun(two, cars());
        firsts.push(first * 1e3);
        wholes.push(whole * 1e3);
        return CARS / whole;
      },
    );
    console.log(
      `  one thread ${shown(threads.first)} cars a second, two ${shown(threads.second)}: ${times(threads.ratio)}`,
    );
    const machine = await alternateRuns(
      () => busyThreads(1),
      () => busyThreads(2),
    );
    console.log(`  two threads that only count, against one, on this machine now: ${times(machine.ratio)}`);
    // Without the first run, in which the threads start.
    const [whole, first] = [spreadOf(wholes.slice(1)), spreadOf(firsts.slice(1))];
    const share = spreadOf(firsts.slice(1).map((time, run) => time / (wholes[run + 1] ?? Number.NaN)));
    console.log(`  its first line after ${shown(first)} ms, the whole after ${shown(whole)} ms: ${times(share)}`);

    const single = await alternateRuns(
      async () => CARS / (await singleRun(two)),
      async () => CARS / (await batchRun(two, cars())).whole,
    );
    console.log(
      `  one call a car ${shown(single.first)} cars a second, one after the other; one batch, two threads, ${shown(single.second)}: ${times(single.ratio)}`,
    );

    await memory(two);
  } finally {
    await one.app.close();
    await two.app.close();
  }
}

/**
 * Highest use of the heap after collection, service and caller together, while many lines pass. One line in ten is a
 * pack alone and the others are faulty: their number must not count, whatever they are. What the threads hold is not in it.
 */
async function memory(service: Service): Promise<void> {
  const collect = collector();
  const look = (): number => {
    collect();
    return process.memoryUsage().heapUsed / 2 ** 20;
  };
  const peak = (count: number) => async () => {
    let most = look();
    const timer = setInterval(() => {
      most = Math.max(most, look());
    }, LOOK);
    await batchRun(service, lightLines(count), { detail: 'verdict', errors: count - count / PACK_EVERY });
    clearInterval(timer);
    return most;
  };
  const { first, second, ratio } = await alternateRuns(peak(FEW), peak(MANY));
  console.log(
    `  peak heap of ${String(FEW)} lines ${shown(first)} MiB, of ${String(MANY)} lines ${shown(second)} MiB: ${times(ratio)}`,
  );
}

async function serve(threads: number): Promise<Service> {
  const app = await buildApp({ batch: { threads } });
  return { app, address: await app.listen({ port: 0, host: '127.0.0.1' }) };
}

/** Seconds to the first line and to the last; the lines are sent while answers are read, and none is kept. */
async function batchRun({ address }: Service, lines: Iterable<string>, { detail = 'full', errors = 0 } = {}) {
  const start = performance.now();
  const response = await fetch(`${address}/v1/verify/batch?detail=${detail}`, {
    method: 'POST',
    headers: { 'content-type': 'application/x-ndjson' },
    body: ReadableStream.from(encoded(lines)),
    duplex: 'half',
  });
  if (!response.ok || response.body === null) throw new Error(`the batch was answered ${String(response.status)}`);
  let first: number | undefined;
  let end = '';
  const decoder = new TextDecoder();
  for await (const bytes of response.body as ReadableStream<Uint8Array>) {
    if (first === undefined && bytes.includes(0x0a)) first = (performance.now() - start) / 1e3;
    end = (end + decoder.decode(bytes, { stream: true })).slice(-300);
  }
  if (first === undefined || !end.endsWith(`"errors":${String(errors)}}}\n`))
    throw new Error(`the batch ended with ${end}`);
  return { first, whole: (performance.now() - start) / 1e3 };
}

async function singleRun({ address }: Service): Promise<number> {
  const start = performance.now();
  for (const body of cars()) {
    const response = await fetch(`${address}/v1/verify`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
    if (!response.ok) throw new Error(`a car was answered ${String(response.status)}`);
    await response.text();
  }
  return (performance.now() - start) / 1e3;
}

let turn = 0;

/** The same car with another link capacitor each time, so that nothing could be remembered. */
function* cars(): Generator<string> {
  for (let car = 0; car < CARS; car += 1) {
    turn += 1;
    const elements = request.circuit.elements.map((element) =>
      element['kind'] === 'capacitor'
        ? { ...element, capacitance: { nominal: 3e-4 * (1 + turn * 1e-6), tolerance: 0.1 } }
        : element,
    );
    yield `${JSON.stringify({ ...request, circuit: { ...request.circuit, elements } })}\n`;
  }
}

function* lightLines(count: number): Generator<string> {
  for (let line = 0; line < count; line += 1) {
    const pack = { id: 'pack', kind: 'accumulator', nodes: ['p', 'n'], zone: 'container', voltage: 400 + line * 1e-3 };
    const elements = line % PACK_EVERY === 0 ? [pack] : [];
    yield `${JSON.stringify({ circuit: { elements }, ruleset: request.ruleset })}\n`;
  }
}

function* encoded(lines: Iterable<string>): Generator<Uint8Array> {
  const encoder = new TextEncoder();
  for (const line of lines) yield encoder.encode(line);
}

/** The engine's own collection, without an option on the command line. */
function collector(): () => void {
  setFlagsFromString('--expose-gc');
  return runInNewContext('gc') as () => void;
}

function shown({ median, least, most }: Spread): string {
  return `${median.toFixed(1)} (${least.toFixed(1)} to ${most.toFixed(1)})`;
}

function times({ median, least, most }: Spread): string {
  return `ratio ${median.toFixed(2)} (${least.toFixed(2)} to ${most.toFixed(2)})`;
}
