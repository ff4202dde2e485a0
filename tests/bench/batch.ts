import { batchFirstLine } from './batch-first-line.js';
import { batchMemory } from './batch-memory.js';
import { busyThreads } from './busy-threads.js';
import { alternateRuns, shown, spreadOf, times } from './measure.js';
import { postBatch } from './post-batch.js';
import { type Served, serve } from './serve.js';
import { exampleRequest, varied } from './varied.js';

/** Cars of one run, those of an event: one or two seconds. */
const CARS = 192;
/** Runs before anything is counted: the engine compiles a verification's functions for a thousand cars, on every thread anew. */
const WARM = 12;

/** Many cars in one stream: what threads bring, what a stream brings, what it needs of memory, and when it begins to answer. */
export async function batch(): Promise<void> {
  console.log(
    `a batch over HTTP (${String(CARS)} cars, values distinct; medians of five runs in turn, least and most in brackets)`,
  );
  const one = await serve(1);
  const two = await serve(2);
  try {
    for (let run = 0; run < WARM; run += 1) {
      for (const service of [one, two]) {
        await verdictRun(service);
        await batchRun(service);
      }
      await singleRun(two);
    }
    const measured = recorder();
    for (const [what, run] of Object.entries({ verdicts: verdictRun, 'whole reports': batchRun })) {
      const threads = await alternateRuns(
        measured(`one thread, ${what}`, one, run),
        measured(`two threads, ${what}`, two, run),
      );
      console.log(
        `  ${what}: one thread ${shown(threads.first)} cars a second, two ${shown(threads.second)}: ${times(threads.ratio)}`,
      );
    }
    const machine = await alternateRuns(
      () => busyThreads(1),
      () => busyThreads(2),
    );
    console.log(`  two threads that only count, against one, on this machine now: ${times(machine.ratio)}`);
    const { first, second, ratio } = await alternateRuns(
      measured('one call a car', two, singleRun),
      measured('one batch', two, batchRun),
    );
    console.log(
      `  one call a car, one after the other, ${shown(first)} cars a second; one batch, two threads, ${shown(second)}: ${times(ratio)}`,
    );
    measured.tell();
  } finally {
    await one.stop();
    await two.stop();
  }
  await batchFirstLine();
  await batchMemory();
}

/**
 * Measures runs and remembers what they had of the machine: others take processors away, and a rate alone does not tell
 * whether the service or the machine was slow.
 */
function recorder() {
  const runs = new Map<string, Run[]>();
  const measured = (name: string, service: Served, run: (service: Served) => Promise<Run>) => {
    const kept: Run[] = [];
    runs.set(name, kept);
    return async (): Promise<number> => {
      const done = await run(service);
      kept.push(done);
      return done.rate;
    };
  };
  measured.tell = (): void => {
    for (const [name, kept] of runs) {
      const perCar = spreadOf(kept.map(({ processor }) => (processor / CARS) * 1e3));
      const had = spreadOf(kept.map(({ processor, whole }) => processor / whole));
      console.log(`  ${name}: ${shown(perCar)} ms of processor time a car; it had ${shown(had)} processors`);
    }
  };
  return measured;
}

interface Run {
  /** Cars a second. */
  readonly rate: number;
  /** s */
  readonly whole: number;
  /** s of processor time of the service. */
  readonly processor: number;
}

const request = exampleRequest('discharge-fused');

/** Of whole reports: the caller and the service's main thread have some 70 KB a car to handle, on the same processors. */
function batchRun(service: Served): Promise<Run> {
  return batchOf(service, 'full');
}

/** Of verdicts, which is what a batch answers where nothing else is asked for. */
function verdictRun(service: Served): Promise<Run> {
  return batchOf(service, 'verdict');
}

function batchOf(service: Served, detail: string): Promise<Run> {
  return timed(service, async (cars) => {
    await postBatch(
      service.address,
      cars.map((car) => `${car}\n`),
      { detail },
    );
  });
}

function singleRun(service: Served): Promise<Run> {
  return timed(service, async (cars) => {
    for (const body of cars) {
      const headers = { 'content-type': 'application/json' };
      const response = await fetch(`${service.address}/v1/verify`, { method: 'POST', headers, body });
      if (!response.ok) throw new Error(`a car was answered ${String(response.status)}`);
      await response.text();
    }
  });
}

async function timed({ use }: Served, work: (cars: readonly string[]) => Promise<void>): Promise<Run> {
  const cars = Array.from({ length: CARS }, () => JSON.stringify(varied(request)));
  const before = (await use()).processor;
  const start = performance.now();
  await work(cars);
  const whole = (performance.now() - start) / 1e3;
  return { rate: CARS / whole, whole, processor: (await use()).processor - before };
}
