import { once } from 'node:events';
import { Worker } from 'node:worker_threads';

const TURNS = 6e8;
const LOOP = `let sum = 0; for (let k = 0; k < ${String(TURNS)}; k += 1) sum = (sum + k) | 0; if (sum === 0.5) throw sum;`;

/** Loops a second of so many threads that do nothing else and share nothing: what the machine has left for threads now. */
export async function busyThreads(count: number): Promise<number> {
  const start = performance.now();
  await Promise.all(Array.from({ length: count }, () => once(new Worker(LOOP, { eval: true }), 'exit')));
  return count / ((performance.now() - start) / 1e3);
}
