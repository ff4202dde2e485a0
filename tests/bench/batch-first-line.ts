import { shown, spreadOf } from './measure.js';
import { postBatch } from './post-batch.js';
import { serve } from './serve.js';
import { exampleRequest, varied } from './varied.js';

const ROUNDS = 5;
const CARS = 8;
/** Batches after which the threads run compiled code. */
const WARM = 15;

/** From the first line sent to the first line answered: in a process just started, whose threads start with it, and in one that has worked. */
export async function batchFirstLine(): Promise<void> {
  const request = exampleRequest('discharge-fused');
  const cold: number[] = [];
  const warm: Record<'verdict' | 'full', number[]> = { verdict: [], full: [] };
  for (let round = 0; round < ROUNDS; round += 1) {
    const { address, stop } = await serve(2);
    const first = async (detail: 'verdict' | 'full'): Promise<number> => {
      const cars = Array.from({ length: CARS }, () => `${JSON.stringify(varied(request))}\n`);
      return (await postBatch(address, cars, { detail })).first * 1e3;
    };
    cold.push(await first('verdict'));
    for (let batch = 0; batch < WARM; batch += 1) await first(batch % 2 === 0 ? 'verdict' : 'full');
    warm.verdict.push(await first('verdict'));
    warm.full.push(await first('full'));
    await stop();
  }
  console.log(
    `  first line of verdicts after ${shown(spreadOf(warm.verdict))} ms, of whole reports after ${shown(spreadOf(warm.full))} ms; in a process just started after ${shown(spreadOf(cold))} ms`,
  );
}
